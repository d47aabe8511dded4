import type { ReactNode } from 'react'
import type { Day } from '../../api/day.ts'
import { floorAt, type Standing } from '../../core/session/floor.ts'
import { type Drawing, Icon } from '../signs/icons.tsx'
import { StationFrame } from '../signs/StationFrame.tsx'
import { DAY_WORDS } from './dayWords.ts'

type Plan = NonNullable<Day['plan']>

export type FloorProps = Readonly<{
  plan: Plan
  nowMin: number
  timeOf: (min: number) => string
}>

const DRAWINGS: Readonly<Record<string, Drawing>> = {
  coating: 'screen',
  drying: 'shop',
  light: 'light',
  water: 'water',
  'drying again': 'shop',
}

/** Who is at which station, in the order of a screen's way. */
export function Floor({ plan, nowMin, timeOf }: FloorProps): ReactNode {
  const floors = floorAt(plan.tasks, { stations: plan.stations, nowMin })
  const printing = floors.at(-1) ?? []
  return (
    <ol className="day-floor">
      {plan.stations.map(({ name, machines, minutes, people }, at) => (
        <li key={name} className="day-room">
          <Head
            name={DAY_WORDS.stations[name] ?? capital(name)}
            drawing={DRAWINGS[name] ?? 'screen'}
            more={DAY_WORDS.places(machines, minutes, people)}
          />
          <People
            standing={floors[at] ?? []}
            says={(each) => says(each, { nowMin, timeOf, name, machines })}
          />
        </li>
      ))}
      <li className="day-room">
        <Head
          name={DAY_WORDS.printing}
          drawing="print"
          more={DAY_WORDS.printingMore(printing.length)}
        />
        <People standing={printing} says={({ min }) => DAY_WORDS.since(timeOf(min))} />
      </li>
    </ol>
  )
}

function Head({
  name,
  drawing,
  more,
}: Readonly<{ name: string; drawing: Drawing; more: string }>): ReactNode {
  return (
    <>
      <h2 className="day-room-name">
        <Icon of={drawing} />
        {name}
      </h2>
      <p className="small">{more}</p>
    </>
  )
}

function People({
  standing,
  says,
}: Readonly<{ standing: readonly Standing[]; says: (each: Standing) => string }>): ReactNode {
  if (standing.length === 0) return <p className="soft day-nobody">{DAY_WORDS.nobody}</p>
  return (
    <ul className="day-standing">
      {standing.map((each) => (
        <li key={`${each.person} ${each.screen} ${each.again} ${each.state}`}>
          <StationFrame state={each.state} size={32} />
          <span className="day-name">{called(each)}</span>
          <span className="small">{says(each)}</span>
        </li>
      ))}
    </ul>
  )
}

function says(
  { state, min, machine }: Standing,
  {
    nowMin,
    timeOf,
    name,
    machines,
  }: Readonly<{ nowMin: number; timeOf: FloorProps['timeOf']; name: string; machines: number }>,
): string {
  const where =
    machines > 1
      ? `${DAY_WORDS.machine((DAY_WORDS.machines[name] ?? name).toLowerCase(), machine)}, `
      : ''
  switch (state) {
    case 'here now':
      return `${where}${DAY_WORDS.left(Math.ceil(min - nowMin))}`
    case 'drying':
      return DAY_WORDS.until(timeOf(min))
    case 'make again':
      return DAY_WORDS.again(timeOf(min))
    case 'not yet':
    case 'done':
      return DAY_WORDS.at(timeOf(min))
  }
}

/** First names are enough in a room; a second screen has its number. */
export function called({ person, screen }: Readonly<{ person: string; screen: number }>): string {
  return screen > 1 ? `${person} ${screen}` : person
}

function capital(name: string): string {
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}`
}
