import { type ReactNode, useState } from 'react'
import type { Lamp } from '../../../api/lamp.ts'
import { PATHS } from '../../../api/paths.ts'
import { Blank } from '../../signs/Blank.tsx'
import { Button } from '../../signs/Button.tsx'
import { DayEntry } from '../DayEntry.tsx'
import { today } from '../days.ts'
import { Entry } from '../Entry.tsx'
import { useSending } from '../useSending.ts'
import { LAMP_WORDS } from './lampWords.ts'
import { NO_PAIR, NO_TIMING, type PairDraft, type TimingWrong, timingOf } from './timingDraft.ts'

const NOTHING_WRONG: TimingWrong = { pairs: {}, lampHours: null, whole: null }
const FROMS = (['cold', 'hot'] as const).map((id) => ({ id, name: LAMP_WORDS.fromWords[id] }))

/** Clock and counter of a running lamp, pair by pair. */
export function TimingEntry({
  unit,
  countsIn,
  onTaken,
}: Readonly<{ unit: string; countsIn: Lamp['countsIn']; onTaken: () => void }>): ReactNode {
  const [draft, setDraft] = useState(() => ({ ...NO_TIMING, on: today() }))
  const [wrong, setWrong] = useState(NOTHING_WRONG)
  const [said, setSaid] = useState<string | null>(null)
  const sending = useSending<Lamp>()
  const change = (changed: Partial<typeof draft>): void => {
    setDraft({ ...draft, ...changed })
    setWrong(NOTHING_WRONG)
    setSaid(null)
  }
  const changePair = (at: number, changed: Partial<PairDraft>): void =>
    change({ pairs: draft.pairs.with(at, { ...NO_PAIR, ...draft.pairs[at], ...changed }) })
  const take = async (): Promise<void> => {
    const told = timingOf(draft, unit)
    if (told.timing === null) {
      setWrong(told.wrong)
      return
    }
    const lamp = await sending.send({ path: PATHS.lampTimings, method: 'POST', body: told.timing })
    if (lamp === null) return
    setDraft({ ...NO_TIMING, on: today() })
    setSaid(LAMP_WORDS.taken)
    onTaken()
  }
  return (
    <form
      className="timing"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (!sending.isBusy) void take()
      }}
    >
      <h2>{LAMP_WORDS.tell}</h2>
      <p className="how">
        {countsIn === 'seconds' ? LAMP_WORDS.tellHowSeconds : LAMP_WORDS.tellHow}
      </p>
      <p className="cautions">{LAMP_WORDS.caution}</p>
      <p className="tests-sentence">
        {LAMP_WORDS.from}{' '}
        <Blank
          label={LAMP_WORDS.from}
          value={draft.from}
          choices={FROMS}
          onChoice={(id) => change({ from: id === 'hot' ? 'hot' : 'cold' })}
        />
        .
      </p>
      <div className="pairs">
        <p className="pairs-head" aria-hidden="true">
          <span>{LAMP_WORDS.clock}</span>
          <span>{countsIn === 'seconds' ? LAMP_WORDS.sum : LAMP_WORDS.count}</span>
        </p>
        {draft.pairs.map((pair, at) => (
          <div key={at} className="pair">
            <Entry
              quiet
              label={LAMP_WORDS.clockAt(at + 1)}
              value={pair.clock}
              figures="clock"
              example={at === 0 ? LAMP_WORDS.clockExample : ''}
              isWrong={wrong.pairs[at] !== undefined}
              onEntry={(clock) => changePair(at, { clock })}
            />
            <Entry
              quiet
              label={LAMP_WORDS.countAt(at + 1)}
              value={pair.count}
              figures="decimal"
              example={at === 0 ? LAMP_WORDS.countExample : ''}
              isWrong={wrong.pairs[at] !== undefined}
              onEntry={(count) => changePair(at, { count })}
            />
            {wrong.pairs[at] !== undefined && (
              <p role="alert" className="entry-wrong">
                {wrong.pairs[at]}
              </p>
            )}
          </div>
        ))}
        <button
          type="button"
          className="word-link"
          onClick={() => change({ pairs: [...draft.pairs, NO_PAIR, NO_PAIR, NO_PAIR] })}
        >
          {LAMP_WORDS.morePairs}
        </button>
      </div>
      <div className="entries">
        <Entry
          label={LAMP_WORDS.lampHours}
          value={draft.lampHours}
          figures="decimal"
          wrong={wrong.lampHours}
          onEntry={(lampHours) => change({ lampHours })}
        />
        <DayEntry
          label={LAMP_WORDS.day}
          value={draft.on}
          latest={today()}
          onEntry={(on) => change({ on })}
        />
      </div>
      <p aria-live="polite" className="entry-wrong read-refused">
        {wrong.whole ?? sending.message}
      </p>
      <p aria-live="polite" className="said">
        {said}
      </p>
      <Button kind="submit" busy={sending.isBusy}>
        {sending.isBusy ? LAMP_WORDS.busy : LAMP_WORDS.act}
      </Button>
    </form>
  )
}
