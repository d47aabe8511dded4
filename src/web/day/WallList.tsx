import type { ReactNode } from 'react'
import type { Day } from '../../api/day.ts'
import { clockText } from '../figures.ts'
import { DAY_WORDS } from './dayWords.ts'
import { called, type FloorProps } from './Floor.tsx'

/** Only on paper: for each screen when it is where. */
export function WallList({ plan, timeOf }: FloorProps): ReactNode {
  const screens = [
    ...new Map(
      plan.tasks.map((task) => [`${task.person} ${task.screen} ${task.again}`, task]),
    ).values(),
  ].toSorted((a, b) => a.person.localeCompare(b.person) || a.screen - b.screen)
  return (
    <table className="day-wall">
      <caption>{DAY_WORDS.list}</caption>
      <thead>
        <tr>
          <th scope="col" />
          {plan.stations.map(({ name }) => (
            <th scope="col" key={name}>
              {DAY_WORDS.stations[name] ?? name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {screens.map((screen) => (
          <tr key={`${screen.person} ${screen.screen} ${screen.again}`}>
            <th scope="row">{called(screen)}</th>
            {plan.stations.map(({ name }) => {
              const task = plan.tasks.find(
                (each) =>
                  each.station === name &&
                  each.person === screen.person &&
                  each.screen === screen.screen &&
                  each.again === screen.again,
              )
              return <td key={name}>{task === undefined ? '' : timeOf(task.startMin)}</td>
            })}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** Screens whose time is over today, and what waits. */
export function DueAndWaits({ day }: Readonly<{ day: Day }>): ReactNode {
  if (day.due.length === 0 && day.waits.length === 0) return null
  return (
    <div className="day-due">
      {day.due.length > 0 && (
        <section>
          <h2>{DAY_WORDS.due}</h2>
          <ul>
            {day.due.map(({ tag, owner, until }) => (
              <li key={tag}>
                {DAY_WORDS.dueLine(tag, owner)}{' '}
                <span className="soft">{DAY_WORDS.until(clockText(new Date(until)))}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {day.waits.length > 0 && (
        <section>
          <h2>{DAY_WORDS.waits}</h2>
          <ul>
            {day.waits.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  )
}
