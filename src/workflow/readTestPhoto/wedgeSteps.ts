import { medianOf, type WedgeProfile } from './wedgeProfile.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** A step's light as a natural log over the ground's, and by how much it rises within the step. */
type StepSeen = Readonly<{ log: number; rise: number; clippedShare: number }>

export type WedgeSeen = Readonly<{
  /** Step 1, which had the most light, first: logs rise. */
  logs: readonly number[]
  clippedShares: readonly number[]
  /** Log of open fabric, and of hard ground. */
  clear: number
  solid: number
}>

/** The middle of a step that is looked at. */
const CORE = 0.5
/** Corners shown by hand may be off by so many steps at either end (judged). */
const SHIFTS = [-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3] as const
/** A shift must even the steps out by so much for each step it goes (judged). */
const SHIFT_COST = 0.1
/** Open fabric is lighter than ground by so much at least: a factor 1.5. */
const LEAST_RISE = Math.log(1.5)
/** Within even steps light hardly rises; in a slope by a third of that from step to step (judged). */
const MOST_WITHIN = 0.22
/** So far may a step be out of its turn, as a share of the whole rise (judged). */
const MOST_TURNED = 0.12
/** Two steps are alike. */
const ALIKE = 0.06

/**
 * The steps between the two ends, the clear end found, and the levels to measure them by.
 *
 * @throws Failure 'wrong input' where it is no row of even steps from solid to clear
 */
export function wedgeSeen(profile: WedgeProfile, steps: number): WedgeSeen {
  const first = stepsAt(profile, { steps, from: 0, to: 0 })
  const level = (list: readonly StepSeen[]): number => medianOf(list.map(({ log }) => log))
  const turned = level(first.slice(0, 2)) > level(first.slice(-2))
  const best = SHIFTS.flatMap((from) => SHIFTS.map((to) => ({ from, to })))
    .map((shift) => {
      const seen = stepsAt(profile, { steps, ...shift })
      const range = rangeOf(seen)
      const within = withinOf(seen)
      const cost = within + SHIFT_COST * (Math.abs(shift.from) + Math.abs(shift.to))
      return { seen, range, within, cost }
    })
    .reduce((least, next) => (next.cost < least.cost ? next : least))
  if (best.range < LEAST_RISE) {
    throw wrongPhoto(
      'Between these corners nothing is much lighter than the rest; take the photo with light behind the screen, and show where the wedge lies.',
    )
  }
  if (best.within > MOST_WITHIN) {
    throw wrongPhoto(
      'I see no even steps between these corners; show the wedge’s own four corners, or take a sharper photo.',
    )
  }
  const seen = turned ? best.seen.toReversed() : best.seen
  return levelled(seen, { besideSeen: profile.besideSeen, range: best.range })
}

function levelled(
  seen: readonly StepSeen[],
  { besideSeen, range }: Readonly<{ besideSeen: boolean; range: number }>,
): WedgeSeen {
  const own = seen.map(({ log }) => log)
  const logs = rising(own)
  const turned = Math.max(...logs.map((log, at) => Math.abs(log - (own[at] ?? log))))
  if (turned > MOST_TURNED * range) {
    throw wrongPhoto(
      'The steps do not get lighter one after another: put the corners on the wedge’s own; where they lie there, take the photo again without reflections or a hand before it.',
    )
  }
  const [last = 0, before = 0] = [logs.at(-1), logs.at(-2)]
  if (last - before > ALIKE * range) {
    throw wrongPhoto(
      'No step of this wedge is washed clear, so the photo has nothing to measure by; read it by eye.',
    )
  }
  const [darkest = 0, next = 0] = logs
  if (!besideSeen && next - darkest > 2 * ALIKE * range) {
    throw wrongPhoto(
      'Neither a solid step nor the ground beside the wedge is seen; take the photo with a finger’s width around the wedge.',
    )
  }
  const clippedShares = seen.map(({ clippedShare }) => clippedShare)
  const clear = (last + before) / 2
  return {
    logs,
    clippedShares,
    clear,
    solid: besideSeen ? Math.min(0, darkest) : darkest,
  }
}

function stepsAt(
  { logs, clipped, columnsEach }: WedgeProfile,
  { steps, from, to }: Readonly<{ steps: number; from: number; to: number }>,
): readonly StepSeen[] {
  const pitch = (steps + to - from) / steps
  return Array.from({ length: steps }, (_, step) => {
    const middle = (from + (step + 0.5) * pitch) * columnsEach
    const reach = (CORE * pitch * columnsEach) / 2
    const start = Math.min(logs.length - 3, Math.max(0, Math.round(middle - reach)))
    const end = Math.max(start + 3, Math.min(logs.length, Math.round(middle + reach)))
    const core = [...logs.subarray(start, end)]
    const third = Math.max(1, Math.floor(core.length / 3))
    const rise = medianOf(core.slice(-third)) - medianOf(core.slice(0, third))
    const ends = [...clipped.subarray(start, end)]
    const clippedShare = ends.reduce((sum, share) => sum + share, 0) / ends.length
    return { log: medianOf(core), rise, clippedShare }
  })
}

/** How much the light rises within steps against from step to step, where it does. */
function withinOf(seen: readonly StepSeen[]): number {
  let [within, between] = [0, 1e-9]
  for (const [at, { log, rise }] of seen.entries()) {
    const [before, after] = [seen[at - 1]?.log ?? log, seen[at + 1]?.log ?? log]
    const step = Math.abs(after - before) / 2
    within += step * Math.abs(rise)
    between += step * step
  }
  return within / between
}

function rangeOf(seen: readonly StepSeen[]): number {
  const logs = seen.map(({ log }) => log)
  return Math.max(...logs) - Math.min(...logs)
}

/** The nearest list that never falls: neighbours that do share their mean. @source pool-adjacent */
function rising(list: readonly number[]): readonly number[] {
  const pools: { mean: number; count: number }[] = []
  for (const value of list) {
    let pool = { mean: value, count: 1 }
    for (let before = pools.at(-1); before !== undefined; before = pools.at(-1)) {
      if (before.mean <= pool.mean) break
      pools.pop()
      const count = before.count + pool.count
      pool = {
        mean: (before.mean * before.count + pool.mean * pool.count) / count,
        count,
      }
    }
    pools.push(pool)
  }
  return pools.flatMap(({ mean, count }) => Array.from({ length: count }, () => mean))
}
