import type { Tests } from '../../../api/tests.ts'
import { hand } from '../../../workflow/cloth/wobble.ts'
import { dayNumber } from '../days.ts'
import { bandOf, type Field, n, pathOf } from './Axes.tsx'
import { type Line, lineScale, type Span } from './ticks.ts'

type Ground = Tests['ground']

/** One stretch of the belief between two breaks: its yellow band and its three threads. */
export type Stretch = Readonly<{ band: string; threads: readonly string[] }>

export type GroundWeave = Readonly<{
  along: Line
  up: Line
  stretches: readonly Stretch[]
  /** Every reading as an upright thread. */
  uprights: readonly string[]
  breaks: readonly Readonly<{ xPx: number; words: string }>[]
}>

/** A thread that lies above hides so much of what lies below. */
const GAP_PX = 3
const THREADS = 3

/** Weaves what is believed, along, with what was read, upright. Null while there is nothing. */
export function groundWeave(ground: Ground, field: Field): GroundWeave | null {
  const days = [...ground.days, ...ground.readings].map(({ on }) => dayNumber(on))
  if (days.length === 0) return null
  const along = lineScale(spanOf(days, ground), {
    fromPx: field.leftPx + 4,
    toPx: field.rightPx - 2,
  })
  const up = lineScale(heightOf(ground), {
    fromPx: field.bottomPx,
    toPx: field.topPx,
  })
  const posts = ground.readings
    .map(({ on, low, high }) => ({
      xPx: along.px(dayNumber(on)),
      topPx: Math.max(field.topPx, up.px(high)),
      bottomPx: Math.min(field.bottomPx, up.px(low)),
    }))
    .toSorted((a, b) => a.xPx - b.xPx)
  const stretches = stretchesOf(ground).map((stretch) =>
    stretch.map(({ on, low, high }) => ({
      xPx: along.px(dayNumber(on)),
      lowPx: up.px(low),
      highPx: up.px(high),
    })),
  )
  return {
    along,
    up,
    stretches: stretches.map((edge) => ({
      band: bandOf(edge),
      threads: Array.from({ length: THREADS }, (_, row) => threadPath(edge, { row, posts })),
    })),
    uprights: posts.map((post, order) => uprightPath(post, { order, stretches })),
    breaks: ground.breaks.map(({ on, words }) => ({ xPx: along.px(dayNumber(on)) - 4, words })),
  }
}

/** From the first day to the last; what is newest after a break has room to be seen. */
function spanOf(days: readonly number[], { breaks }: Ground): Span {
  const [low, high] = [Math.min(...days), Math.max(...days)]
  const pad = Math.max(1, (high - low) * 0.02)
  const broken = Math.max(low, ...breaks.map(({ on }) => dayNumber(on)))
  return { low: low - pad, high: Math.max(high + pad, broken + 8 * pad) }
}

/** High enough for the belief and all but the vaguest tenth of the readings. */
function heightOf({ days, readings, dose }: Ground): Span {
  const inner = (values: readonly number[], share: number): readonly number[] => {
    const sorted = values.toSorted((a, b) => a - b)
    const value = sorted[Math.round(share * (sorted.length - 1))]
    return value === undefined ? [] : [value]
  }
  const lows = [
    dose.low,
    ...days.map(({ low }) => low),
    ...inner(
      readings.map(({ low }) => low),
      0.1,
    ),
  ]
  const highs = [
    dose.high,
    ...days.map(({ high }) => high),
    ...inner(
      readings.map(({ high }) => high),
      0.9,
    ),
  ]
  const [low, high] = [Math.min(...lows), Math.max(...highs)]
  const pad = (high - low) * 0.08 || high * 0.1
  return { low: Math.max(0, low - pad), high: high + pad }
}

/** The days of belief, cut where something was new. */
function stretchesOf({ days, breaks }: Ground): readonly Ground['days'][] {
  const cuts = breaks.map(({ on }) => on).toSorted()
  const sorted = days.toSorted((a, b) => (a.on < b.on ? -1 : 1))
  const parts = [...cuts, null].map((cut, at) =>
    sorted.filter(({ on }) => (cut === null || on < cut) && on >= (cuts[at - 1] ?? '')),
  )
  return parts.filter((part) => part.length > 0)
}

type Post = Readonly<{ xPx: number; topPx: number; bottomPx: number }>
type Edge = readonly Readonly<{ xPx: number; lowPx: number; highPx: number }>[]

/** Where a row of a stretch lies at a place along it; null beside it. */
function rowPx(edge: Edge, { row, xPx }: Readonly<{ row: number; xPx: number }>): number | null {
  const after = edge.findIndex((place) => place.xPx >= xPx)
  const [right, left] = [edge[after], edge[after - 1]]
  if (right === undefined) return null
  const part = left === undefined ? 1 : (xPx - left.xPx) / Math.max(1e-6, right.xPx - left.xPx)
  if (left === undefined && right.xPx - xPx > 0.01) return null
  const between = (a: number, b: number): number => a + part * (b - a)
  const [lowPx, highPx] = [
    between((left ?? right).lowPx, right.lowPx),
    between((left ?? right).highPx, right.highPx),
  ]
  return highPx + ((row + 0.5) / THREADS) * (lowPx - highPx)
}

function isOver(order: number, row: number): boolean {
  return (order + row) % 2 === 0
}

/** A thread of the belief; it goes under every other reading it meets. */
function threadPath(
  edge: Edge,
  { row, posts }: Readonly<{ row: number; posts: readonly Post[] }>,
): string {
  const [first, last] = [edge.at(0), edge.at(-1)]
  if (first === undefined || last === undefined) return ''
  const sway = hand(row + 31).wave(0.7)
  const under = posts.flatMap(({ xPx, topPx, bottomPx }, order) => {
    const yPx = rowPx(edge, { row, xPx })
    const meets = yPx !== null && yPx > topPx && yPx < bottomPx
    return meets && !isOver(order, row) ? [xPx] : []
  })
  const ends = [...under, Number.POSITIVE_INFINITY]
  let fromPx = first.xPx - 3
  let path = ''
  for (const gapPx of ends) {
    const toPx = Math.min(gapPx - GAP_PX, last.xPx + 2)
    if (toPx - fromPx > 0.5) {
      const count = Math.max(1, Math.round((toPx - fromPx) / 8))
      const points = Array.from({ length: count + 1 }, (_, at) => {
        const xPx = fromPx + ((toPx - fromPx) * at) / count
        const inside = Math.min(last.xPx, Math.max(first.xPx, xPx))
        return { xPx, yPx: (rowPx(edge, { row, xPx: inside }) ?? 0) + sway(xPx) }
      })
      path += pathOf(points)
    }
    fromPx = Math.max(fromPx, gapPx + GAP_PX)
  }
  return path
}

/** A reading; it goes under every other thread of the belief it meets. */
function uprightPath(
  { xPx, topPx, bottomPx }: Post,
  { order, stretches }: Readonly<{ order: number; stretches: readonly Edge[] }>,
): string {
  const gaps = stretches
    .flatMap((edge) =>
      Array.from({ length: THREADS }, (_, row) =>
        isOver(order, row) ? rowPx(edge, { row, xPx }) : null,
      ),
    )
    .filter((yPx) => yPx !== null)
    .toSorted((a, b) => a - b)
  const lean = hand(order + 400).next() - 0.5
  const xAt = (yPx: number): number =>
    xPx + (lean * 2 * (yPx - topPx)) / Math.max(1, bottomPx - topPx)
  let fromPx = topPx
  let path = ''
  for (const gapPx of [...gaps, Number.POSITIVE_INFINITY]) {
    const toPx = Math.min(gapPx - GAP_PX, bottomPx)
    if (toPx - fromPx > 0.5) path += `M${n(xAt(fromPx))} ${n(fromPx)}L${n(xAt(toPx))} ${n(toPx)}`
    fromPx = Math.max(fromPx, gapPx + GAP_PX)
  }
  return path
}
