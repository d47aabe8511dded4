import { type ReactNode, useId, useState } from 'react'
import type { Day } from '../../api/day.ts'
import { PATHS } from '../../api/paths.ts'
import { clockText } from '../figures.ts'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { DAY_WORDS } from './dayWords.ts'
import { type DayDraft, dayWritten } from './newDay.ts'

const CLOSES = '17:00'

/** A class: who comes, when, and what the room has for them. */
export function PlanClass({
  usual,
  onPlanned,
  onLeave,
}: Readonly<{
  usual: Day['usual']
  onPlanned: () => void
  /** Null: there is nothing to go back to. */
  onLeave: (() => void) | null
}>): ReactNode {
  const words = DAY_WORDS.fresh
  const [draft, setDraft] = useState<DayDraft>(() => draftOf(usual))
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<Day>()
  const people = useId()
  const change = (changed: Partial<DayDraft>): void => setDraft({ ...draft, ...changed })
  const { day, wrongs } = dayWritten(draft, { today: new Date() })
  const plan = async (): Promise<void> => {
    setAsked(true)
    if (day === null || sending.isBusy) return
    if ((await sending.send({ path: PATHS.day, method: 'POST', body: day })) !== null) onPlanned()
  }
  const classes = [...new Set(usual.people.flatMap(({ className }) => className ?? []))]
  const take = (className: string | null): void =>
    change({
      people: usual.people
        .filter((each) => className === null || each.className === className)
        .map(({ name }) => name)
        .join('\n'),
    })
  const wrong = isAsked ? wrongs : { people: null, begins: null, closes: null, stations: null }
  return (
    <div className="unfolded day-plan">
      <div className="entries">
        <Entry
          label={words.title}
          value={draft.title}
          example={words.titleExample}
          longest={80}
          onEntry={(title) => change({ title })}
        />
        <Entry
          label={words.begins}
          value={draft.begins}
          figures="clock"
          wrong={wrong.begins}
          onEntry={(begins) => change({ begins })}
        />
        <Entry
          label={words.closes}
          value={draft.closes}
          figures="clock"
          wrong={wrong.closes}
          onEntry={(closes) => change({ closes })}
        />
      </div>
      <div className="entry">
        <label htmlFor={people}>{`${words.people}. ${words.lead}`}</label>
        <textarea
          id={people}
          className="day-people"
          rows={6}
          value={draft.people}
          aria-invalid={wrong.people !== null}
          onChange={(event) => change({ people: event.target.value })}
        />
        {wrong.people !== null && <p className="entry-wrong">{wrong.people}</p>}
      </div>
      <div className="entry-acts">
        {classes.map((name) => (
          <SecondAct key={name} onPress={() => take(name)}>
            {words.known(name)}
          </SecondAct>
        ))}
        {usual.people.length > 0 && (
          <SecondAct onPress={() => take(null)}>{words.everybody}</SecondAct>
        )}
      </div>
      <p>{words.room}</p>
      <label className="day-coated">
        <input
          type="checkbox"
          checked={draft.isCoated}
          onChange={(event) => change({ isCoated: event.target.checked })}
        />
        {words.coated}
      </label>
      <div className="day-stations">
        {draft.stations.map(({ name, machines, minutes }, at) => (
          <div className="day-station" key={name} hidden={draft.isCoated && at < draft.againFrom}>
            <Entry
              label={words.machines(name)}
              value={machines}
              figures="whole"
              isWrong={wrong.stations !== null}
              onEntry={(value) => change({ stations: withAt(draft, at, { machines: value }) })}
            />
            <Entry
              label={words.minutes(name)}
              value={minutes}
              figures="decimal"
              isWrong={wrong.stations !== null}
              onEntry={(value) => change({ stations: withAt(draft, at, { minutes: value }) })}
            />
          </div>
        ))}
      </div>
      {wrong.stations !== null && <p className="entry-wrong">{wrong.stations}</p>}
      <p className="small">{words.more}</p>
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <div className="entry-acts">
        <Button busy={sending.isBusy} onPress={() => void plan()}>
          {sending.isBusy ? words.planning : words.plan}
        </Button>
        {onLeave !== null && <SecondAct onPress={onLeave}>{words.leave}</SecondAct>}
      </div>
    </div>
  )
}

function withAt(
  { stations }: DayDraft,
  at: number,
  changed: Partial<DayDraft['stations'][number]>,
): DayDraft['stations'] {
  return stations.map((station, index) => (index === at ? { ...station, ...changed } : station))
}

function draftOf({ stations, againFrom }: Day['usual']): DayDraft {
  return {
    title: '',
    begins: clockText(new Date()),
    closes: CLOSES,
    people: '',
    isCoated: false,
    againFrom,
    stations: stations.map(({ name, machines, minutes, people }) => ({
      name,
      machines: String(machines),
      minutes: String(minutes),
      people,
    })),
  }
}
