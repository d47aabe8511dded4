import type { LiveTask } from './live.ts'

/** Somebody's screen at a station, or waiting for it. */
export type Standing = Readonly<{
  person: string
  screen: number
  /** How often it failed before. */
  again: number
  state: 'here now' | 'drying' | 'not yet' | 'make again' | 'done'
  machine: number
  /** Until when it is here; of those that wait, from when on. */
  min: number
}>

/** Who waits is shown as far ahead. */
const MOST_WAITING = 3

/**
 * The floor of a class at a minute: for each station who is there and who comes next, and at the end
 * those who are done.
 */
export function floorAt(
  tasks: readonly LiveTask[],
  {
    stations,
    nowMin,
  }: Readonly<{ stations: readonly Readonly<{ name: string; people: boolean }>[]; nowMin: number }>,
): readonly (readonly Standing[])[] {
  const last = stations.at(-1)?.name
  const floors = stations.map(({ name, people }) => {
    const own = tasks.filter((task) => task.station === name && !task.failed)
    const here = own.filter(({ startMin, endMin }) => startMin <= nowMin && nowMin < endMin)
    const next = own
      .filter(({ startMin }) => startMin > nowMin)
      .toSorted((a, b) => a.startMin - b.startMin)
      .slice(0, people ? MOST_WAITING : 0)
    return [
      ...here.map((task) =>
        standing(task, { state: people ? 'here now' : 'drying', min: task.endMin }),
      ),
      ...next.map((task) =>
        standing(task, { state: task.again > 0 ? 'make again' : 'not yet', min: task.startMin }),
      ),
    ]
  })
  const done = tasks.filter(
    (task) => task.station === last && !task.failed && task.endMin <= nowMin,
  )
  return [...floors, done.map((task) => standing(task, { state: 'done', min: task.endMin }))]
}

function standing(
  { person, screen, again, machine }: LiveTask,
  { state, min }: Pick<Standing, 'state' | 'min'>,
): Standing {
  return { person, screen, again, machine, state, min }
}
