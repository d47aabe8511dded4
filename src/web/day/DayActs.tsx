import { type ReactNode, useState } from 'react'
import type { Day, NewDayEvent } from '../../api/day.ts'
import { dayEndPath, dayEventsPath } from '../../api/paths.ts'
import { newKey } from '../newKey.ts'
import { Link, ROUTES } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { DAY_WORDS } from './dayWords.ts'
import { called, type FloorProps } from './Floor.tsx'

type Open = 'failed' | 'late' | 'end' | null
type Plan = FloorProps['plan']

/** What may happen meanwhile: the plan changes, and says what moved. */
export function DayActs({
  plan,
  nowMin,
  timeOf,
  onChanged,
  onNew,
}: FloorProps & Readonly<{ onChanged: () => void; onNew: () => void }>): ReactNode {
  const [open, setOpen] = useState<Open>(null)
  const [said, setSaid] = useState<readonly string[]>([])
  const [wasFailed, setFailed] = useState(false)
  const sending = useSending<Day>()
  const tell = async (event: NewDayEvent): Promise<void> => {
    const answer = await sending.send({ path: dayEventsPath(plan.id), method: 'POST', body: event })
    if (answer === null) return
    setSaid(answer.plan === null ? [] : movedWords(answer.plan, { event, timeOf, nowMin }))
    setFailed(event.kind === 'failed')
    setOpen(null)
    onChanged()
  }
  const end = async (): Promise<void> => {
    if ((await sending.send({ path: dayEndPath(plan.id), method: 'POST' })) === null) return
    onChanged()
  }
  const toggle = (which: Open): void => setOpen(open === which ? null : which)
  return (
    <div className="day-acts">
      <div className="day-acts-row">
        <Button expanded={open === 'failed'} onPress={() => toggle('failed')}>
          {DAY_WORDS.failed}
        </Button>
        <SecondAct expanded={open === 'late'} onPress={() => toggle('late')}>
          {DAY_WORDS.late}
        </SecondAct>
        <SecondAct onPress={() => print()}>{DAY_WORDS.print}</SecondAct>
        <SecondAct expanded={open === 'end'} onPress={() => toggle('end')}>
          {DAY_WORDS.end}
        </SecondAct>
        <Foot plan={plan} timeOf={timeOf} />
      </div>
      <div aria-live="polite">
        {said.map((sentence) => (
          <p key={sentence} className="day-moved">
            {sentence}
          </p>
        ))}
        {said.length > 0 && wasFailed && (
          <Link to={ROUTES.trouble} className="second-act">
            <span>{DAY_WORDS.whyFailed}</span>
          </Link>
        )}
      </div>
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      {open === 'failed' && (
        <Failed plan={plan} nowMin={nowMin} onTell={(event) => void tell(event)} />
      )}
      {open === 'late' && <Late plan={plan} nowMin={nowMin} onTell={(event) => void tell(event)} />}
      {open === 'end' && (
        <div className="unfolded">
          <p>{DAY_WORDS.endSure}</p>
          <div className="entry-acts">
            <SecondAct onPress={() => void end()}>{DAY_WORDS.endYes}</SecondAct>
            <SecondAct onPress={onNew}>{DAY_WORDS.fresh.again}</SecondAct>
            <SecondAct onPress={() => setOpen(null)}>{DAY_WORDS.endNo}</SecondAct>
          </div>
        </div>
      )}
    </div>
  )
}

function Foot({ plan, timeOf }: Pick<FloorProps, 'plan' | 'timeOf'>): ReactNode {
  const { foot } = DAY_WORDS
  return (
    <p className="day-foot">
      {plan.tasks.some(({ again }) => again > 0) && foot.hatched}
      {foot.two(timeOf(plan.withTwoMoreMin))}
      {plan.lastStartMin === null ? foot.tooLate : foot.last(timeOf(plan.lastStartMin))}
    </p>
  )
}

type Asks = Readonly<{ plan: Plan; nowMin: number; onTell: (event: NewDayEvent) => void }>

function Failed({ plan, nowMin, onTell }: Asks): ReactNode {
  const screens = screensOf(plan, ({ startMin }) => startMin <= nowMin)
  const [chosen, setChosen] = useState(screens[0]?.id ?? '')
  const screen = screens.find(({ id }) => id === chosen)
  const station = plan.stations[plan.againFrom]?.name ?? ''
  if (screen === undefined) return <p>{DAY_WORDS.nobody}</p>
  return (
    <div className="unfolded">
      <p className="sentence">
        {`${DAY_WORDS.failedLead} ${(DAY_WORDS.stations[station] ?? station).toLowerCase()}: `}
        <Blank
          label={DAY_WORDS.whose}
          value={chosen}
          choices={screens}
          onChoice={(id) => setChosen(id)}
        />
      </p>
      <div className="entry-acts">
        <SecondAct
          onPress={() =>
            onTell({ kind: 'failed', key: newKey(), person: screen.person, screen: screen.screen })
          }
        >
          {DAY_WORDS.plan}
        </SecondAct>
      </div>
    </div>
  )
}

function Late({ plan, nowMin, onTell }: Asks): ReactNode {
  const screens = screensOf(plan, ({ startMin }) => startMin > nowMin)
  const people = screens.filter(
    ({ person }, at) => screens.findIndex((other) => other.person === person) === at,
  )
  const [chosen, setChosen] = useState(people[0]?.id ?? '')
  const [minutes, setMinutes] = useState('15')
  const who = people.find(({ id }) => id === chosen)
  const count = Number(minutes)
  const isRight = count >= 1 && count <= 600
  if (who === undefined) return <p>{DAY_WORDS.nobody}</p>
  return (
    <div className="unfolded">
      <p className="sentence">
        {`${DAY_WORDS.lateLead} `}
        <Blank
          label={DAY_WORDS.whoLate}
          value={chosen}
          choices={people.map(({ id, person }) => ({ id, name: person }))}
          onChoice={(id) => setChosen(id)}
        />
      </p>
      <Entry
        label={DAY_WORDS.lateMinutes}
        value={minutes}
        figures="whole"
        wrong={isRight ? null : DAY_WORDS.fresh.badNumber}
        onEntry={setMinutes}
      />
      <div className="entry-acts">
        <SecondAct
          onPress={() => {
            if (!isRight) return
            const { person, screen } = who
            onTell({ kind: 'late', key: newKey(), person, screen, minutes: count })
          }}
        >
          {DAY_WORDS.plan}
        </SecondAct>
      </div>
    </div>
  )
}

/** Screens that have such a task, those that began last first. */
function screensOf(
  { tasks }: Plan,
  has: (task: Plan['tasks'][number]) => boolean,
): readonly Readonly<{ id: string; name: string; person: string; screen: number }>[] {
  const found = tasks.filter(has).toSorted((a, b) => b.startMin - a.startMin)
  const ids = new Map(
    found.map(({ person, screen }) => [
      `${person} ${screen}`,
      { id: `${person} ${screen}`, name: called({ person, screen }), person, screen },
    ]),
  )
  return [...ids.values()].toSorted((a, b) => a.name.localeCompare(b.name))
}

function movedWords(
  plan: Plan,
  {
    event,
    timeOf,
    nowMin,
  }: Readonly<{ event: NewDayEvent; timeOf: FloorProps['timeOf']; nowMin: number }>,
): readonly string[] {
  const own = plan.tasks.find(
    ({ person, screen, startMin }) =>
      person === event.person && screen === event.screen && startMin >= nowMin - 1,
  )
  const { madeAgain, comesAt, moved, later, earlier, movedNone } = DAY_WORDS
  const first =
    own === undefined
      ? []
      : [(event.kind === 'failed' ? madeAgain : comesAt)(event.person, timeOf(own.startMin))]
  const others = new Map<string, number>()
  for (const { person, byMin } of plan.moved) {
    const most = others.get(person) ?? 0
    if (person !== event.person && Math.abs(byMin) > Math.abs(most)) others.set(person, byMin)
  }
  if (others.size === 0) return [...first, movedNone]
  // all that move by as much stand in one sentence
  const alike = new Map<string, string[]>()
  for (const [person, byMin] of others) {
    const min = Math.round(Math.abs(byMin))
    const by = byMin > 0 ? later(min) : earlier(min)
    alike.set(by, [...(alike.get(by) ?? []), person])
  }
  return [...first, ...[...alike].map(([by, names]) => moved(names.join(', '), by))]
}
