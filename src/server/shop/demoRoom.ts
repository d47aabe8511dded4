import { DEMO_ROOM } from '../../demo/room.ts'
import type { Database } from '../../store/database/database.ts'
import { addDayEvent, addDayPlan } from '../../store/dayPlans.ts'
import { addIncident } from '../../store/incidents.ts'
import { addThing } from '../../store/things.ts'
import { USUAL_WAY, wayOf } from '../day/usualWay.ts'
import { dayText } from './days.ts'
import { daysBefore } from './demoPast.ts'

const MIN_MS = 60_000

/** The demo shop's machines and shelves, and a class that is in the middle of its afternoon. Demo. */
export async function addDemoRoom(
  database: Database,
  { at }: Readonly<{ at: Date }>,
): Promise<void> {
  const { stations, machines, supplies, leftovers, hazardText, handover, term, incident } =
    DEMO_ROOM
  const things = [
    ...stations.map(({ name, ...facts }) => ({ kind: 'station' as const, name, facts })),
    ...machines.map(({ name, of }) => ({ kind: 'machine' as const, name, facts: { of } })),
    ...supplies.map(({ name, ...facts }) => ({ kind: 'supply' as const, name, facts })),
    ...leftovers.map(({ name, lab, ...facts }) => ({
      kind: 'leftover' as const,
      name,
      facts: { ...facts, lab: [...lab] },
    })),
    { kind: 'hazard text' as const, name: hazardText.name, facts: { text: hazardText.text } },
    {
      kind: 'handover' as const,
      name: handover.name,
      facts: { says: handover.says, humidityShare: handover.humidityShare },
    },
    {
      kind: 'term' as const,
      name: term.name,
      facts: {
        firstDay: dayText(daysBefore(at, term.beganDaysAgo)),
        weeks: term.weeks,
        people: term.people,
      },
    },
  ]
  for (const [index, thing] of things.entries()) {
    await addThing(database, thing, { at: new Date(at.getTime() + index) })
  }
  const { daysAgo, ...told } = incident
  await addIncident(database, { ...told, happenedAt: daysBefore(at, daysAgo) }, { at })
  await addDemoClass(database, { at })
}

async function addDemoClass(database: Database, { at }: Readonly<{ at: Date }>): Promise<void> {
  const { classBeganMin, classMin, failed, stations } = DEMO_ROOM
  const { title, people } = DEMO_ROOM.class
  const beginsAt = new Date(at.getTime() - classBeganMin * MIN_MS)
  const closesAt = new Date(beginsAt.getTime() + classMin * MIN_MS)
  const asked = {
    title,
    beginsAt: beginsAt.toISOString(),
    closesAt: closesAt.toISOString(),
    people: people.map(([name, screens]) => ({ name, screens, arriveMin: 0 })),
    stations: wayOf(stations.map((facts) => ({ facts }))),
    againFrom: USUAL_WAY.findIndex(({ job }) => job === 'light'),
  }
  const plan = await addDayPlan(database, { title, beginsAt, closesAt, asked }, { at })
  const { person, screen, minutesAgo } = failed
  await addDayEvent(
    database,
    {
      planId: plan.id,
      sentKey: 'demo-class-failed',
      kind: 'failed',
      person,
      screen,
      happenedAt: new Date(at.getTime() - minutesAgo * MIN_MS),
    },
    { at },
  )
}
