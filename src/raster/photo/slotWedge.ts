import type { Sheet } from './photoLight.ts'

/** A wedge in a slot: where it begins and ends along it, and the bare light at both sides of it. */
export type SlotWedge = Readonly<{
  fromMm: number
  toMm: number
  /** log10 of bare light at a place along the slot. */
  bareAt: (xMm: number) => number
}>

/** The part of the slot's height that is looked at: a wedge may lie a little askew. */
const BAND = 0.3
/** Hands cut slots no better than this. */
const CUT_MM = 2
/** Seen densities are cut off here: noise beyond it weighs nothing. */
const DARKEST = 2.4
/** What a row of steps must explain of all that is seen, and how much must be seen. */
const EXPLAINED = 0.97
const LEAST_RANGE = 0.6
const LEAST_STEP_MM = 2.5
const SHIFT_MM = 0.2
const PITCH_MM = 0.02
/** Bare light needed at one side at least. */
const BARE_MM = 1.5

/**
 * The wedge that explains a slot's light best: bare light, so many even steps, bare light.
 *
 * @param slot laid flat, its length across
 * @param count of steps
 * @param shapeAt log10 of a light that bends along the slot as its own does, whatever its height and
 *   slope: between the bare ends it is seen nowhere
 * @returns null where nothing of the kind lies in it
 */
export function slotWedge(
  slot: Sheet,
  { count, shapeAt }: Readonly<{ count: number; shapeAt: (xMm: number) => number }>,
): SlotWedge | null {
  const profile = profileOf(slot)
  const { pixelMm } = slot
  const [first, last] = [
    Math.round(CUT_MM / pixelMm),
    profile.length - Math.round(CUT_MM / pixelMm),
  ]
  const sums = sumsOf(profile)
  const whole = sums.spread(first, last)
  if (!(sums.range(first, last) > LEAST_RANGE)) return null
  const length = (last - first) * pixelMm
  const search = (around: Search): Fit => {
    let best: Fit = { left: Number.POSITIVE_INFINITY, startMm: 0, pitchMm: 0 }
    for (const pitchMm of stepsOf(around.pitch)) {
      const room = length - pitchMm * count
      for (const startMm of stepsOf(around.start)) {
        if (pitchMm < LEAST_STEP_MM || startMm < 0 || startMm > room) continue
        const left = unexplained(startMm, pitchMm, best.left)
        if (left < best.left) best = { left, startMm, pitchMm }
      }
    }
    return best
  }
  const unexplained = (startMm: number, pitchMm: number, most: number): number => {
    const edge = (at: number): number => Math.round(first + (startMm + at * pitchMm) / pixelMm)
    let left = sums.spread(first, edge(0)) + sums.spread(edge(count), last)
    for (let at = 0; at < count && left < most; at += 1) left += sums.spread(edge(at), edge(at + 1))
    return left
  }
  const rough = search({
    pitch: { from: LEAST_STEP_MM, to: length / count, by: PITCH_MM },
    start: { from: 0, to: length, by: SHIFT_MM },
  })
  const fine = search({
    pitch: { from: rough.pitchMm - 0.12, to: rough.pitchMm + 0.12, by: PITCH_MM / 4 },
    start: { from: rough.startMm - 2, to: rough.startMm + 2, by: pixelMm / 2 },
  })
  const best = fine.left < rough.left ? fine : rough
  if (!(best.left < (1 - EXPLAINED) * whole)) return null
  const from = first + best.startMm / pixelMm
  const to = from + (count * best.pitchMm) / pixelMm
  const bent = profile.map((log, at) => log - shapeAt((at + 0.5) * pixelMm))
  const lineAt = bareLight(bent, { first, last, from, to, pixelMm })
  if (lineAt === null) return null
  const bareAt = (xMm: number): number => lineAt(xMm) + shapeAt(xMm)
  return { fromMm: from * pixelMm, toMm: to * pixelMm, bareAt }
}

type Steps = Readonly<{ from: number; to: number; by: number }>
type Search = Readonly<{ pitch: Steps; start: Steps }>
type Fit = Readonly<{ left: number; startMm: number; pitchMm: number }>

function stepsOf({ from, to, by }: Steps): readonly number[] {
  return Array.from(
    { length: Math.max(0, Math.floor((to - from) / by) + 1) },
    (_, at) => from + at * by,
  )
}

/** log10 of light along the slot's middle. */
function profileOf({ widthPx, heightPx, values }: Sheet): Float64Array {
  const [top, bottom] = [
    Math.floor(((1 - BAND) / 2) * heightPx),
    Math.ceil(((1 + BAND) / 2) * heightPx),
  ]
  const profile = new Float64Array(widthPx)
  for (let x = 0; x < widthPx; x += 1) {
    let sum = 0
    for (let y = top; y < bottom; y += 1) sum += values[y * widthPx + x]
    profile[x] = Math.log10(Math.max(1e-6, sum / (bottom - top)))
  }
  const brightest = profile.reduce((most, one) => Math.max(most, one), Number.NEGATIVE_INFINITY)
  return profile.map((one) => Math.max(one, brightest - DARKEST))
}

type Sums = Readonly<{
  /** Sum of squares about the mean. */
  spread: (from: number, to: number) => number
  range: (from: number, to: number) => number
}>

function sumsOf(profile: Float64Array): Sums {
  const plain = new Float64Array(profile.length + 1)
  const squares = new Float64Array(profile.length + 1)
  profile.forEach((one, at) => {
    plain[at + 1] = plain[at] + one
    squares[at + 1] = squares[at] + one * one
  })
  return {
    spread: (from, to) => {
      if (to <= from) return 0
      const sum = plain[to] - plain[from]
      return squares[to] - squares[from] - (sum * sum) / (to - from)
    },
    range: (from, to) => {
      const part = profile.subarray(from, to)
      return Math.max(...part) - Math.min(...part)
    },
  }
}

/** A straight line through the bare light at both sides, or level by the one side that has some. */
function bareLight(
  profile: Float64Array,
  {
    first,
    last,
    from,
    to,
    pixelMm,
  }: Readonly<{ first: number; last: number; from: number; to: number; pixelMm: number }>,
): ((xMm: number) => number) | null {
  const margin = 0.5 / pixelMm
  const middle = (start: number, end: number): readonly [number, number] | null => {
    const part = profile.subarray(Math.ceil(start), Math.floor(end))
    if (part.length * pixelMm < BARE_MM) return null
    const mean = part.reduce((sum, one) => sum + one, 0) / part.length
    return [((start + end) / 2) * pixelMm, mean]
  }
  const before = middle(first, from - margin)
  const after = middle(to + margin, last)
  const one = before ?? after
  if (one === null) return null
  if (before === null || after === null) return () => one[1]
  const slope = (after[1] - before[1]) / (after[0] - before[0])
  return (xMm) => before[1] + slope * (xMm - before[0])
}
