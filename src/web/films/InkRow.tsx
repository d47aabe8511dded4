import { type ReactNode, useState } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { FILMS_WORDS, percentText } from './filmsWords.ts'
import { Figure } from './PlanSentence.tsx'
import { PulledChip } from './PulledChip.tsx'
import { dotKindOf, inksOf, withInkChanged, withInkEarlier, withInks } from './planFile.ts'
import type { PlateSeen } from './previewAsk.ts'

export type InkRowProps = Readonly<{
  plate: PlateSeen
  /** In the order of printing, from 0. */
  place: number
  plan: FilmPlan
  file: PlanFile
  inks: Artwork['inks']
  isLookedAt: boolean
  onLook: () => void
  onPlan: (file: PlanFile) => void
}>

/** An ink as a pulled chip, with how its film is made. */
export function InkRow(props: InkRowProps): ReactNode {
  const { plate, place, plan, file, isLookedAt, onLook } = props
  const [isOpen, setOpen] = useState(false)
  // white under all is no ink of the plan's list
  const at = plan.underbase === null ? place : place - 1
  const angleDeg = angleFor(plan, at)
  const halftone = plan.mode === 'line' ? null : plan.halftone
  return (
    <li className="film-ink">
      <button
        type="button"
        className="film-ink-look"
        aria-pressed={isLookedAt}
        aria-label={FILMS_WORDS.look(plate.name)}
        onClick={onLook}
      >
        <PulledChip
          lab={plate.lab}
          halftone={halftone}
          angleDeg={angleDeg ?? 0}
          stock={plan.paper ?? null}
        />
      </button>
      <div className="film-ink-words">
        <h2>{FILMS_WORDS.ink(place + 1, plate.name)}</h2>
        <p className="film-ink-share">{FILMS_WORDS.coverage(percentText(plate.coverageShare))}</p>
        <p>{inkSays(plan, at)}</p>
        {!plate.isUnderbase && inksOf(file).length > at && (
          <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
            {FILMS_WORDS.change(plate.name)}
          </SecondAct>
        )}
        {isOpen && <Change {...props} at={at} angleDeg={angleDeg} />}
      </div>
    </li>
  )
}

function angleFor({ halftone, inks }: FilmPlan, at: number): number | null {
  if (halftone?.kind !== 'dot') return null
  return inks[at]?.angleDeg ?? halftone.angleDeg
}

function inkSays(plan: FilmPlan, at: number): string {
  const { halftone, mode, inks } = plan
  const says = FILMS_WORDS.inkSays
  if (at < 0) return says.under
  const angle = angleFor(plan, at)
  const tones = inks[at]?.tones
  const range = tones?.scatters === true ? says.scattered : says.tones
  const held = tones === undefined ? '' : range(percentText(tones.least), percentText(tones.most))
  if (halftone === null || mode === 'line') return says.flat
  if (halftone.kind === 'stochastic') return says.grain(String((halftone.dotUm ?? 0) / 1000)) + held
  const kind = FILMS_WORDS.dots[dotKindOf(halftone)]
  return says.dots(kind, String(halftone.rulingPerCm), String(angle ?? 0)) + held
}

function Change({
  plan,
  file,
  inks,
  at,
  angleDeg,
  onPlan,
}: InkRowProps & Readonly<{ at: number; angleDeg: number | null }>): ReactNode {
  const own = inksOf(file)[at]
  if (own === undefined) return null
  const chosen = inks.find(({ name }) => name === own.name)
  return (
    <div className="unfolded">
      <p>
        {FILMS_WORDS.inkIs}{' '}
        <Blank
          label={FILMS_WORDS.inkIs}
          value={chosen?.id ?? ''}
          choices={inks}
          open={own.name}
          onChoice={(id) => {
            const ink = inks.find((each) => each.id === id)
            if (ink === undefined) return
            const { name, lab, opacity } = ink
            onPlan(withInkChanged(file, at, { name, lab, opacity }))
          }}
        />
        .
      </p>
      {angleDeg !== null && (
        <p>
          {FILMS_WORDS.angleIs}
          <Figure
            label={FILMS_WORDS.angle}
            value={angleDeg}
            wrong={null}
            onFigure={(angle) => onPlan(withInkChanged(file, at, { angleDeg: angle }))}
          />
          {FILMS_WORDS.degrees}.
        </p>
      )}
      <div className="entry-acts">
        {at > 0 && (
          <SecondAct onPress={() => onPlan(withInkEarlier(file, at))}>
            {FILMS_WORDS.earlier}
          </SecondAct>
        )}
        {own.tones !== undefined && (
          <SecondAct
            onPress={() => {
              const all = inksOf(file).map(({ tones, ...ink }, place) =>
                place === at || tones === undefined ? ink : { ...ink, tones },
              )
              onPlan(withInks(file, all))
            }}
          >
            {FILMS_WORDS.allTones}
          </SecondAct>
        )}
        {plan.inks.length > 1 && plan.mode !== 'process' && (
          <SecondAct
            onPress={() =>
              onPlan(
                withInks(
                  file,
                  inksOf(file).filter((_, place) => place !== at),
                ),
              )
            }
          >
            {FILMS_WORDS.out}
          </SecondAct>
        )}
      </div>
    </div>
  )
}
