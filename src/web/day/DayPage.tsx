import { type ReactNode, useEffect, useState } from 'react'
import type { Day } from '../../api/day.ts'
import { PATHS } from '../../api/paths.ts'
import type { Asked } from '../asked.ts'
import { RoomClocks } from '../clocks/RoomClocks.tsx'
import { clockText } from '../figures.ts'
import { Standing } from '../frame/Standing.tsx'
import { Button } from '../signs/Button.tsx'
import '../tests/entry.css'
import { aheadOf } from '../shopClock.ts'
import { useAsked } from '../useAsked.ts'
import { ROOM_WORDS } from '../words.ts'
import { Chart } from './Chart.tsx'
import { DayActs } from './DayActs.tsx'
import './day.css'
import { DAY_WORDS } from './dayWords.ts'
import { Floor } from './Floor.tsx'
import { PlanClass } from './PlanClass.tsx'
import { DueAndWaits, WallList } from './WallList.tsx'

const DAY = { path: PATHS.day }
/** So often it is asked again, and the clock moves. */
const ASK_MS = 30_000
const TICK_MS = 5000
const MIN_MS = 60_000

/** Class time: who is where, who is next, when all are done. */
export function DayPage(): ReactNode {
  const [asked, askAgain] = useAsked<Day>(DAY)
  const [isNew, setNew] = useState(false)
  const nowMs = useTick()
  const aheadMs = useAhead(asked)
  useEffect(() => {
    const timer = setInterval(askAgain, ASK_MS)
    return () => clearInterval(timer)
  }, [askAgain])
  const day = asked.answer
  if (day === null) {
    return (
      <div className="day">
        <h1>{ROOM_WORDS.day.title}</h1>
        <Standing asked={asked} working={DAY_WORDS.fetching} onAgain={askAgain} />
      </div>
    )
  }
  return (
    <div className="day">
      {day.plan === null || isNew ? (
        <>
          <h1>{ROOM_WORDS.day.title}</h1>
          <Standing asked={asked} working={DAY_WORDS.fetching} onAgain={askAgain} />
          {day.plan === null && <p className="day-sentence">{DAY_WORDS.empty}</p>}
          {isNew ? (
            <PlanClass
              usual={day.usual}
              onPlanned={() => {
                setNew(false)
                askAgain()
              }}
              onLeave={() => setNew(false)}
            />
          ) : (
            <div>
              <Button onPress={() => setNew(true)}>{DAY_WORDS.fresh.act}</Button>
            </div>
          )}
        </>
      ) : (
        <Planned
          plan={day.plan}
          nowMs={nowMs + aheadMs}
          standing={<Standing asked={asked} working={DAY_WORDS.fetching} onAgain={askAgain} />}
          onChanged={askAgain}
          onNew={() => setNew(true)}
        />
      )}
      <RoomClocks />
      <DueAndWaits day={day} />
    </div>
  )
}

type Plan = NonNullable<Day['plan']>

function Planned({
  plan,
  nowMs,
  standing,
  onChanged,
  onNew,
}: Readonly<{
  plan: Plan
  nowMs: number
  standing: ReactNode
  onChanged: () => void
  onNew: () => void
}>): ReactNode {
  const beginMs = Date.parse(plan.beginsAt)
  const nowMin = (nowMs - beginMs) / MIN_MS
  const timeOf = (min: number): string => clockText(new Date(beginMs + min * MIN_MS))
  const of = { plan, nowMin, timeOf }
  return (
    <>
      <header className="day-head">
        <div>
          <h1>{plan.title}</h1>
          <Sentence {...of} />
          {standing}
        </div>
        <p className="day-counts">
          <span>{DAY_WORDS.counts(plan.people, plan.screens)}</span>{' '}
          <span>{DAY_WORDS.closes(clockText(new Date(plan.closesAt)))}</span>
        </p>
      </header>
      <Floor {...of} />
      <Chart {...of} />
      <DayActs {...of} onChanged={onChanged} onNew={onNew} />
      <WallList {...of} />
    </>
  )
}

function Sentence({
  plan,
  nowMin,
  timeOf,
}: Readonly<{ plan: Plan; nowMin: number; timeOf: (min: number) => string }>): ReactNode {
  const words = DAY_WORDS.sentence
  const closesMin = (Date.parse(plan.closesAt) - Date.parse(plan.beginsAt)) / MIN_MS
  const lateMin = Math.round(plan.finishMin - closesMin)
  if (nowMin >= plan.finishMin) return <p className="day-sentence">{words.done}</p>
  const last = plan.stations.findLast(({ people }) => people)?.name ?? ''
  return (
    <p className="day-sentence">
      {words.itIs(timeOf(nowMin))}
      {words.leaves(words.sinks[last] ?? last)}
      <strong>{timeOf(plan.lastAttendedMin)}</strong>
      {words.ready}
      <strong>{timeOf(plan.finishMin)}</strong>.
      {lateMin > 0 && <strong>{words.late(lateMin)}</strong>}
    </p>
  )
}

/** The shop's clock less this device's, by which the clocks run on between answers. */
function useAhead({ answer, answeredAt, tookMs }: Asked<Day>): number {
  const [aheadMs, setAhead] = useState<number | null>(null)
  useEffect(() => {
    if (answer === null || answeredAt === null) return
    const came = { nowMs: answeredAt.getTime(), tookMs }
    setAhead((before) => aheadOf(Date.parse(answer.now), { came, before }))
  }, [answer, answeredAt, tookMs])
  return aheadMs ?? 0
}

/** This device's clock, every few seconds. */
function useTick(): number {
  const [nowMs, setNow] = useState(() => Date.now())
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), TICK_MS)
    return () => clearInterval(timer)
  }, [])
  return nowMs
}
