import type { LightCloth } from '../lightCloth.ts'
import { type DoseScale, doseScale } from './doseScale.ts'
import type { Thread } from './threads.ts'
import { hand } from './wobble.ts'

/** How the threads along lie: by length with the palest lowest, or mixed, each one equal chance. */
export type Rows = 'palest lowest' | 'mixed'

/** A cloth as threads and grounds to draw, in pixels from its upper left corner. */
export type Weave = Readonly<{
  scale: DoseScale
  along: readonly Thread[]
  across: readonly Thread[]
  /** How yellow the ground is, by share of the width. */
  ground: readonly Readonly<{ offsetShare: number; opacity: number }>[]
  /** Where threads change from the page's ink to the ink on mesh and back, by share of the width. */
  onMesh: readonly Readonly<{ fromShare: number; toShare: number }>[]
}>

const ROW_PX = 9
const COLUMN_PX = 9.3
/** What lies above hides so much of what lies below, to either side. */
const GAP_PX = 2.3
/** The last of a thread is loose and curls. */
const FRAY_PX = 9
/** From here on the ground is yellow enough to want dark ink. */
const YELLOW = 0.42

/**
 * Weaves a cloth: threads along reach to their doses, threads across stand as high as their share,
 * and where both are they go over and under each other.
 */
export function weave(
  cloth: LightCloth,
  { widthPx, heightPx, rows }: Readonly<{ widthPx: number; heightPx: number; rows: Rows }>,
): Weave {
  const scale = doseScale(cloth, widthPx)
  const lines = rowsOf(cloth, { heightPx, rows }).map((endLu, row, all) => {
    const yPx = ((row + 0.5) * heightPx) / all.length
    return { ...drawnAlong(row), yPx, endPx: endOf(scale, endLu) }
  })
  const columns = Math.max(2, Math.round(widthPx / COLUMN_PX))
  const posts = Array.from({ length: columns }, (_, column) => {
    const xPx = ((column + 0.5) * widthPx) / columns
    const share = shareAt(cloth.across, scale.doseLu(xPx))
    return { ...drawnAcross(column), xPx, topPx: share > 0.985 ? 0 : heightPx * (1 - share) }
  }).filter((post) => post.topPx < heightPx - 2.5)

  const along = lines.map((line, row) => {
    const under = posts.filter((post) => (row + post.column) % 2 === 0 && crosses(line, post))
    return threadsAlong(line, { widthPx, gapsPx: under.map((post) => post.xPx) })
  })
  const across = posts.map((post) => {
    const under = lines.filter((line, row) => (row + post.column) % 2 === 1 && crosses(line, post))
    return threadsAcross(post, { heightPx, gapsPx: under.map((line) => line.yPx) })
  })
  // brightest at the dose that is likeliest to be good, and the paler the less likely even that is
  const best = Math.max(0.01, ...cloth.good.map(({ chance }) => chance))
  const strength = 0.4 + 0.6 * Math.min(1, best / 0.8)
  const ground = cloth.good.map(({ doseLu, chance }) => ({
    offsetShare: Math.min(1, Math.max(0, scale.xPx(doseLu) / widthPx)),
    opacity: Math.min(1, Math.max(0, (chance / best - 0.06) / 0.9)) * strength,
  }))
  return { scale, along: along.flat(), across: across.flat(), ground, onMesh: yellow(ground) }
}

/** Where a thread ends; one that outlasts the scale goes on beyond it. */
function endOf(scale: DoseScale, endLu: number): number {
  const xPx = Math.max(0, scale.xPx(endLu))
  return xPx >= scale.widthPx ? Number.POSITIVE_INFINITY : xPx
}

type Line = Readonly<{ yPx: number; endPx: number; curlPx: number; sway: (xPx: number) => number }>
type Post = Readonly<{
  xPx: number
  topPx: number
  curlPx: number
  sway: (yPx: number) => number
  column: number
}>

function drawnAlong(row: number): Pick<Line, 'curlPx' | 'sway'> {
  const { next, wave } = hand(row + 1)
  const curl = next() * 2 - 1
  return { curlPx: Math.abs(curl) < 0.25 ? 0 : 6.5 * curl, sway: wave(1.1) }
}

function drawnAcross(column: number): Pick<Post, 'curlPx' | 'sway' | 'column'> {
  const { next, wave } = hand(1000 + column)
  return { column, curlPx: (next() < 0.62 ? -1 : 1) * (1.5 + 3.6 * next()), sway: wave(0.4) }
}

/** Both are whole there; a frayed end lies loose over what it meets. */
function crosses(line: Line, post: Post): boolean {
  const along = line.endPx >= post.xPx + FRAY_PX
  const across = post.topPx === 0 || post.topPx < line.yPx - FRAY_PX + 1
  return along && across
}

/** As many rows as fit, each an equal share; upper row first. */
function rowsOf(
  { along }: LightCloth,
  { heightPx, rows }: Readonly<{ heightPx: number; rows: Rows }>,
): readonly number[] {
  const sorted = along.toSorted((a, b) => a - b)
  const count = Math.min(sorted.length, Math.max(3, Math.round(heightPx / ROW_PX)))
  const ends = Array.from(
    { length: count },
    (_, at) => sorted[Math.floor(((at + 0.5) * sorted.length) / count)] ?? 0,
  )
  if (rows === 'palest lowest') return ends.toReversed()
  const { next } = hand(7)
  return ends
    .map((endLu) => ({ endLu, place: next() }))
    .toSorted((a, b) => a.place - b.place)
    .map(({ endLu }) => endLu)
}

/** The chance that the ground holds, straight between the doses it was given at. */
function shareAt(across: LightCloth['across'], doseLu: number): number {
  const after = across.findIndex((thread) => thread.doseLu >= doseLu)
  if (after === -1) return across.at(-1)?.share ?? 0
  const [right, left] = [across[after], across[after - 1]]
  if (right === undefined) return 0
  if (left === undefined) return right.share
  const part = Math.log(doseLu / left.doseLu) / Math.log(right.doseLu / left.doseLu)
  return left.share + part * (right.share - left.share)
}

function threadsAlong(
  { yPx, endPx, curlPx, sway }: Line,
  { widthPx, gapsPx }: Readonly<{ widthPx: number; gapsPx: readonly number[] }>,
): readonly Thread[] {
  const runsOut = endPx < widthPx
  const straightEnd = runsOut ? Math.max(0, endPx - FRAY_PX) : widthPx
  const threads: Thread[] = []
  let fromPx = 0
  for (const gapPx of [...gapsPx, Number.POSITIVE_INFINITY]) {
    const toPx = Math.min(gapPx - GAP_PX, straightEnd)
    if (toPx - fromPx > 0.5) {
      const places = [fromPx]
      for (let xPx = fromPx + 14; xPx < toPx - 4; xPx += 14) places.push(xPx)
      threads.push({
        points: [...places, toPx].map((xPx) => ({ xPx, yPx: yPx + sway(xPx) })),
      })
    }
    fromPx = Math.max(fromPx, gapPx + GAP_PX)
  }
  if (runsOut && endPx > 4) {
    const y = yPx + sway(straightEnd)
    threads.push({
      points: [
        { xPx: straightEnd, yPx: y },
        { xPx: endPx, yPx: y + curlPx },
      ],
      bend: { xPx: straightEnd + (endPx - straightEnd) * 0.6, yPx: y },
    })
  }
  return threads
}

function threadsAcross(
  { xPx, topPx, curlPx, sway }: Post,
  { heightPx, gapsPx }: Readonly<{ heightPx: number; gapsPx: readonly number[] }>,
): readonly Thread[] {
  const frays = topPx > 0
  if (frays && heightPx - topPx < FRAY_PX) {
    const stub = [heightPx, topPx].map((yPx) => ({ xPx, yPx }))
    return [{ points: stub }]
  }
  const straightTop = frays ? topPx + FRAY_PX : 0
  const threads: Thread[] = []
  let fromPx = heightPx
  for (const gapPx of [...gapsPx.toReversed(), Number.NEGATIVE_INFINITY]) {
    const toPx = Math.max(gapPx + GAP_PX, straightTop)
    if (fromPx - toPx > 0.5) {
      threads.push({ points: [fromPx, toPx].map((yPx) => ({ xPx: xPx + sway(yPx), yPx })) })
    }
    fromPx = Math.min(fromPx, gapPx - GAP_PX)
  }
  if (frays) {
    const x = xPx + sway(straightTop)
    threads.push({
      points: [
        { xPx: x, yPx: straightTop },
        { xPx: x + curlPx, yPx: topPx - 2 },
      ],
      bend: { xPx: x, yPx: topPx + 3 },
    })
  }
  return threads
}

function yellow(ground: Weave['ground']): Weave['onMesh'] {
  const spans: { fromShare: number; toShare: number }[] = []
  ground.forEach(({ offsetShare, opacity }, at) => {
    if (opacity < YELLOW) return
    const before = ground[at - 1]
    const last = spans.at(-1)
    if (before !== undefined && before.opacity >= YELLOW && last !== undefined) {
      last.toShare = offsetShare
    } else spans.push({ fromShare: offsetShare, toShare: offsetShare })
  })
  return spans
}
