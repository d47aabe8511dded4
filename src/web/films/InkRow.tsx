import { type ReactNode, useState } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { SecondAct } from '../signs/Button.tsx'
import { ChangeInk } from './ChangeInk.tsx'
import './filmInks.css'
import { FILMS_WORDS, percentText } from './filmsWords.ts'
import { type ShopPrints, tintsSay } from './HowItPrints.tsx'
import { PulledChip } from './PulledChip.tsx'
import { dotKindOf, inksOf } from './planFile.ts'
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
}> &
  ShopPrints

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
        <p>{inkSays(plan, at) + tintsSay(props, at)}</p>
        {plate.isEmpty && (
          <p>
            <strong>
              {FILMS_WORDS.inkSays.empty(plan.halftone !== null && plan.mode !== 'line')}
            </strong>
          </p>
        )}
        {!plate.isUnderbase && inksOf(file).length > at && (
          <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
            {FILMS_WORDS.change(plate.name)}
          </SecondAct>
        )}
        {isOpen && <ChangeInk {...props} at={at} angleDeg={angleDeg} />}
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
  const { tones, highlightsFrom } = inks[at] ?? {}
  if (highlightsFrom !== undefined) return says.highlights(percentText(highlightsFrom))
  const range = tones?.scatters === true ? says.scattered : says.tones
  const held = tones === undefined ? '' : range(percentText(tones.least), percentText(tones.most))
  if (mode === 'line') return says.flat
  if (halftone === null) return says.half
  if (halftone.kind === 'stochastic') return says.grain(String((halftone.dotUm ?? 0) / 1000)) + held
  const kind = FILMS_WORDS.dots[dotKindOf(halftone)]
  return says.dots(kind, String(halftone.rulingPerCm), String(angle ?? 0)) + held
}
