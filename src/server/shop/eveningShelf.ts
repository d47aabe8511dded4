import { z } from 'zod'
import type { Belief, Entry } from '../../core/calibration/belief/state.ts'
import type { Database } from '../../store/database/database.ts'
import type { Json } from '../../store/database/record.ts'
import { eveningKeys, eveningOf, keepEvenings } from '../../store/evenings.ts'

/** A belief without the shop that it is of. */
export type Shelved = Omit<Belief, 'shop'>

/** Where evenings outlast the day: a shop of many years answers at once after a new start. */
export type EveningShelf = Readonly<{
  keys: () => Promise<ReadonlySet<string>>
  /** Null: not there, or not to be read. */
  read: (key: string) => Promise<Shelved | null>
  /** Keeps these and no others. */
  keep: (
    wanted: readonly Readonly<{ key: string; day: number; belief: Shelved }>[],
  ) => Promise<void>
}>

const heard = z.object({ times: z.number(), lastDay: z.number().nullable() })
const shelved = z.object({
  entries: z.array(
    z.object({
      kind: z.string(),
      name: z.string(),
      prior: z.object({ mean: z.number(), sd: z.number() }),
      heard: z.object({ wedge: heard, strip: heard, outcome: heard }),
    }),
  ),
  mean: z.string(),
  cov: z.string(),
  day: z.number().nullable(),
  lampHours: z.array(z.tuple([z.string(), z.number()])),
})

export function eveningShelf(
  database: Database,
  { now }: Readonly<{ now: () => Date }>,
): EveningShelf {
  /** What was written by us: it need not be written again. */
  const written = new Map<string, Shelved>()
  return {
    keys: async () => new Set(await eveningKeys(database)),
    read: async (key) => {
      const known = shelved.safeParse((await eveningOf(database, key))?.belief)
      return known.success ? fromShelf(known.data) : null
    },
    keep: async (wanted) => {
      const isThere = (each: (typeof wanted)[number]): boolean =>
        written.get(each.key) === each.belief
      const staying = wanted.filter(isThere).map(({ key }) => key)
      const added = wanted
        .filter((each) => !isThere(each))
        .map(({ key, day, belief }) => ({ key, day, belief: forShelf(belief) }))
      await keepEvenings(database, { added, staying }, { at: now() })
      written.clear()
      for (const { key, belief } of wanted) written.set(key, belief)
    },
  }
}

function forShelf({ entries, gaussian, day, lampHours }: Shelved): Json {
  const { mean, cov } = gaussian
  const packed = { entries, mean: text(mean), cov: text(cov), day, lampHours: [...lampHours] }
  return packed
}

/** Null where the numbers are not as many as the entries ask for. */
function fromShelf({
  entries,
  mean,
  cov,
  day,
  lampHours,
}: z.infer<typeof shelved>): Shelved | null {
  const gaussian = { mean: numbers(mean), cov: numbers(cov) }
  const size = entries.length
  if (gaussian.mean.length !== size || gaussian.cov.length !== size ** 2) return null
  return {
    entries: entries as readonly Entry[],
    gaussian,
    day,
    lampHours: new Map(lampHours),
  }
}

/** Every bit of them, in base64. */
function text({ buffer, byteOffset, byteLength }: Float64Array): string {
  return Buffer.from(buffer, byteOffset, byteLength).toString('base64')
}

function numbers(packed: string): Float64Array {
  const bytes = Uint8Array.from(Buffer.from(packed, 'base64'))
  return new Float64Array(
    bytes.buffer,
    0,
    Math.floor(bytes.length / Float64Array.BYTES_PER_ELEMENT),
  )
}
