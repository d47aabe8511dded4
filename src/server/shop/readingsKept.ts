import type { Database } from '../../store/database/database.ts'
import {
  type ReadingsStamp,
  readings,
  readingsStamp,
  struckReadings,
  type WholeReading,
} from '../../store/readings.ts'
import { lamps } from '../../store/units.ts'
import { evidenceOf, type Known, type Taught } from './evidence.ts'

/** All readings in memory, oldest first, as what they teach; only what is new is read again. */
export type ReadingsKept = Readonly<{
  now: (database: Database, known: Omit<Known, 'lamps'>) => Promise<readonly Taught[]>
}>

/**
 * Keeps readings between changes: thousands of rows are read once, after that what came, and what
 * was struck out. Evidence stays the same object while nothing that it rests on has changed.
 */
export function readingsKept(): ReadingsKept {
  let stamp: ReadingsStamp | null = null
  let whole: readonly WholeReading[] = []
  let taught = new WeakMap<WholeReading, Taught>()
  let knownAs = ''
  return {
    now: async (database, things) => {
      const known: Known = { ...things, lamps: await lamps(database) }
      const fresh = await readingsStamp(database)
      whole = await grown(database, { whole, stamp, fresh })
      stamp = fresh
      const facts = factsOf(known)
      if (facts !== knownAs) taught = new WeakMap()
      knownAs = facts
      return whole.map((each) => {
        const there = taught.get(each)
        if (there !== undefined) return there
        const read = { whole: each, evidence: evidenceOf(each, known) }
        taught.set(each, read)
        return read
      })
    },
  }
}

async function grown(
  database: Database,
  {
    whole,
    stamp,
    fresh,
  }: Readonly<{
    whole: readonly WholeReading[]
    stamp: ReadingsStamp | null
    fresh: ReadingsStamp
  }>,
): Promise<readonly WholeReading[]> {
  const all = (): Promise<readonly WholeReading[]> => readings(database, { withStruck: true })
  if (stamp === null || stamp.newestId === null || fresh.count < stamp.count) return all()
  let now = whole
  if (fresh.count > stamp.count) {
    const added = await readings(database, { withStruck: true, afterId: stamp.newestId })
    // Two of one millisecond stand in no order: one of them may have been passed over.
    if (added.length !== fresh.count - stamp.count) return all()
    now = [...whole, ...added].sort(byDay)
  }
  if (fresh.struck === stamp.struck) return now
  const struck = new Map((await struckReadings(database)).map((each) => [each.id, each]))
  return now.map((each) => {
    const changed = struck.get(each.reading.id)
    if ((each.reading.struckAt === null) === (changed === undefined)) return each
    return changed === undefined ? each : { ...each, reading: changed }
  })
}

function byDay({ reading: a }: WholeReading, { reading: b }: WholeReading): number {
  return a.takenAt.getTime() - b.takenAt.getTime() || (a.id < b.id ? -1 : 1)
}

/** All that evidence takes from elsewhere, as a text: another text, other evidence. */
function factsOf({ media, bases, fabrics, coatings, lightKey, lamps: fitted }: Known): string {
  const coats = [...coatings.values()].flat()
  return JSON.stringify([
    media.map(({ id, name }) => [id, name]),
    bases.map(({ id, baseDensity }) => [id, baseDensity]),
    [...fabrics.values()].map(({ id, dyed, threadsPerCm, threadUm, thicknessUm }) => {
      return [id, dyed, threadsPerCm, threadUm, thicknessUm]
    }),
    coats.map(({ id, screenId, coatedAt, eomUm }) => [id, screenId, coatedAt, eomUm]),
    lightKey,
    fitted.map(({ unitId, fittedAt }) => [unitId, fittedAt]),
  ])
}
