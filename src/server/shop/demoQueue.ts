import type { Database } from '../../store/database/database.ts'
import { changeQueuedFilm, filmQueue, queueFilm } from '../../store/filmQueue.ts'
import { daysBefore } from './demoPast.ts'

/** Films of the demo shop that are waited for: one still to be made, one off its scale, one in its drawer. */
export async function addDemoQueue(
  database: Database,
  { people, at }: Readonly<{ people: ReadonlyMap<string, string>; at: Date }>,
): Promise<void> {
  for (const [index, { what, person, days }] of WANTED.entries()) {
    const asked = { what, layerId: null, personId: people.get(person) ?? null }
    await queueFilm(
      database,
      { ...asked, sentKey: `demo-film-wanted-${index}` },
      { at: daysBefore(at, days) },
    )
  }
  const queued = await filmQueue(database, { leftSince: at })
  for (const { what, measuredMm, liesIn } of WANTED) {
    const film = queued.find((each) => each.what === what)
    if (film === undefined || measuredMm === null) continue
    const made = { madeAt: daysBefore(at, 1), barMm: 100, measuredMm, measuredAt: at }
    await changeQueuedFilm(database, film.id, { ...made, liesIn })
  }
}

const WANTED = [
  {
    what: 'Open night, small for cards',
    person: 'Dov Ashgrove',
    days: 3,
    measuredMm: 99.8,
    liesIn: 'drawer 2',
  },
  {
    what: 'Low water, the tide marks',
    person: 'Jonah Pell',
    days: 2,
    measuredMm: 94.1,
    liesIn: null,
  },
  { what: 'Pear labels, one sheet', person: 'Tamsin Ore', days: 1, measuredMm: null, liesIn: null },
] as const
