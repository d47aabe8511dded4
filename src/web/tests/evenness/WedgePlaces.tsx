import { type ReactNode, useMemo, useState } from 'react'
import type { Evenness } from '../../../api/lamp.ts'
import { PATHS } from '../../../api/paths.ts'
import { USUAL_WEDGE } from '../../../core/calibration/wedge.ts'
import { useUnits } from '../../shop.tsx'
import { Button } from '../../signs/Button.tsx'
import { LIGHT_WORDS } from '../../words.ts'
import { DayEntry } from '../DayEntry.tsx'
import { today } from '../days.ts'
import { Entry } from '../Entry.tsx'
import { OtherWedge } from '../OtherWedge.tsx'
import { useSending } from '../useSending.ts'
import { NO_WEDGE, WEDGE_KEYS, type WedgeDraft } from '../wedgeDraft.ts'
import { lengthEntry } from '../written.ts'
import {
  type EvennessDraft,
  type EvennessWrong,
  evennessOf,
  fivePlaces,
  glassOf,
  ninePlaces,
  type PlaceDraft,
  placeAt,
  placeOf,
} from './evennessDraft.ts'
import { EVENNESS_WORDS } from './evennessWords.ts'
import { GlassDrawing } from './GlassDrawing.tsx'

const NOTHING_WRONG: EvennessWrong = { places: {} }
const LAID = { five: fivePlaces, nine: ninePlaces } as const
const NO_PLACE: PlaceDraft = { x: '', y: '', solid: '', clear: '' }

/** Where wedges lay on the glass and what they said. */
export function WedgePlaces({
  evenness,
  onTaken,
}: Readonly<{ evenness: Evenness; onTaken: () => void }>): ReactNode {
  const units = useUnits()
  const [draft, setDraft] = useState<EvennessDraft>(() => ({
    width: evenness.glass === null ? '' : lengthEntry(evenness.glass.widthMm, units),
    height: evenness.glass === null ? '' : lengthEntry(evenness.glass.heightMm, units),
    dose: '',
    on: today(),
    wedge: wedgeDraftOf(evenness.wedge),
    places: evenness.glass === null ? [] : fivePlaces(evenness.glass, units),
  }))
  const [wrong, setWrong] = useState(NOTHING_WRONG)
  const [said, setSaid] = useState<string | null>(null)
  const sending = useSending<Evenness>()
  const glass = useMemo(() => glassOf(draft, units), [draft, units])
  const change = (changed: Partial<EvennessDraft>): void => {
    setDraft({ ...draft, ...changed })
    setWrong(NOTHING_WRONG)
    setSaid(null)
  }
  const take = async (): Promise<void> => {
    const { told, wrong: why } = evennessOf(draft, { unit: evenness.unit.id, units })
    if (told === null) {
      setWrong(why)
      return
    }
    const answer = await sending.send({ path: PATHS.evenness, method: 'POST', body: told })
    if (answer === null) return
    setSaid(EVENNESS_WORDS.taken)
    onTaken()
  }
  const lengths = ['width', 'height'] as const
  return (
    <form
      className="even-tell"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (!sending.isBusy) void take()
      }}
    >
      <h2>{EVENNESS_WORDS.tell}</h2>
      <p className="how">{EVENNESS_WORDS.how}</p>
      <p className="cautions">{EVENNESS_WORDS.caution}</p>
      <div className="entries">
        {lengths.map((side) => (
          <Entry
            key={side}
            label={EVENNESS_WORDS[side]}
            value={draft[side]}
            figures="decimal"
            unit={EVENNESS_WORDS.units[units]}
            wrong={wrong[side] ?? null}
            onEntry={(written) => change({ [side]: written })}
          />
        ))}
        <Entry
          label={EVENNESS_WORDS.dose}
          value={draft.dose}
          figures="decimal"
          unit={LIGHT_WORDS.units[evenness.countsIn]}
          wrong={wrong.dose ?? null}
          onEntry={(dose) => change({ dose })}
        />
        <DayEntry
          label={EVENNESS_WORDS.day}
          value={draft.on}
          latest={today()}
          onEntry={(on) => change({ on })}
        />
      </div>
      <OtherWedge
        draft={draft.wedge}
        wrong={wrong.wedge ?? {}}
        onDraft={(changed) => change({ wedge: { ...draft.wedge, ...changed } })}
      />
      {glass === null ? (
        <p className="small">{EVENNESS_WORDS.glassFirst}</p>
      ) : (
        <>
          <GlassDrawing
            glass={glass}
            places={draft.places.map((place) => placeOf(place, { glass, units }))}
            onPlace={(where) => change({ places: [...draft.places, placeAt(where, units)] })}
          />
          <p className="even-counts">
            {(['five', 'nine'] as const).map((count) => (
              <button
                key={count}
                type="button"
                className="word-link"
                onClick={() => change({ places: relaid(draft, LAID[count](glass, units)) })}
              >
                {EVENNESS_WORDS[count]}
              </button>
            ))}
          </p>
          <p className="small">{EVENNESS_WORDS.which}</p>
          <Places draft={draft} wrong={wrong} onPlaces={(places) => change({ places })} />
        </>
      )}
      <p aria-live="polite" className="entry-wrong read-refused">
        {wrong.few ?? sending.message}
      </p>
      <p aria-live="polite" className="said">
        {said}
      </p>
      <Button kind="submit" busy={sending.isBusy}>
        {sending.isBusy ? EVENNESS_WORDS.busy : EVENNESS_WORDS.act}
      </Button>
    </form>
  )
}

/** The wedge that was laid last, as it would be typed; one that is usual goes without saying. */
function wedgeDraftOf(wedge: Evenness['wedge']): WedgeDraft {
  const isUsual = wedge === null || WEDGE_KEYS.every((key) => wedge[key] === USUAL_WEDGE[key])
  if (isUsual) return NO_WEDGE
  const { steps, firstDensity, increment } = wedge
  return {
    steps: String(steps),
    firstDensity: String(firstDensity),
    increment: String(increment),
  }
}

/** Other places; steps that were told stay with theirs. */
function relaid({ places }: EvennessDraft, laid: readonly PlaceDraft[]): readonly PlaceDraft[] {
  return laid.map((place) => places.find(({ x, y }) => x === place.x && y === place.y) ?? place)
}

function Places({
  draft,
  wrong,
  onPlaces,
}: Readonly<{
  draft: EvennessDraft
  wrong: EvennessWrong
  onPlaces: (places: readonly PlaceDraft[]) => void
}>): ReactNode {
  const { places } = draft
  const fields = ['x', 'y', 'solid', 'clear'] as const
  return (
    <div className="even-places">
      <p className="even-place even-head" aria-hidden="true">
        <span />
        {fields.map((field) => (
          <span key={field}>{EVENNESS_WORDS[field]}</span>
        ))}
      </p>
      {places.map((place, at) => (
        <div key={at} className="even-place" role="group" aria-label={EVENNESS_WORDS.place(at + 1)}>
          <strong>{at + 1}</strong>
          {fields.map((field) => (
            <Entry
              key={field}
              quiet
              label={`${EVENNESS_WORDS.place(at + 1)}, ${EVENNESS_WORDS[field]}`}
              value={place[field]}
              figures={field === 'solid' || field === 'clear' ? 'whole' : 'decimal'}
              isWrong={wrong.places[at] !== undefined}
              onEntry={(written) => onPlaces(places.with(at, { ...place, [field]: written }))}
            />
          ))}
          <button
            type="button"
            className="word-link"
            aria-label={EVENNESS_WORDS.remove(at + 1)}
            onClick={() => onPlaces(places.toSpliced(at, 1))}
          >
            {EVENNESS_WORDS.removeShort}
          </button>
          {wrong.places[at] !== undefined && (
            <p role="alert" className="entry-wrong">
              {wrong.places[at]}
            </p>
          )}
        </div>
      ))}
      {places.length < 25 && (
        <button type="button" className="word-link" onClick={() => onPlaces([...places, NO_PLACE])}>
          {EVENNESS_WORDS.add}
        </button>
      )}
    </div>
  )
}
