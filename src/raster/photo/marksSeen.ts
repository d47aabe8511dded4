import { codeOfLeak, leakOfCode } from '../leakCode.ts'
import { markRowFinder } from '../markRows.ts'
import { markFinder } from '../weakMarks.ts'
import type { Sheet } from './photoLight.ts'
import { reduced } from './reduced.ts'

/** A mark by its palest part: where that is, and how wide and dense the mark is there. */
export type MarkSeen = Readonly<{
  xMm: number
  yMm: number
  lengthMm: number
  widthUm: number
  density: number
}>

/** The marks of a density map. */
export type MarksSeen = Readonly<{
  /** Marks 1 mm long and more, and shorter ones. */
  longCount: number
  shortCount: number
  /** The palest of the long ones, the palest first. */
  weakest: readonly MarkSeen[]
  /** Along the middle of all marks: the width that half of it is narrower than, um. */
  widthUm: number
  /** Of wide enough places along it: palest tenth, middle, densest tenth; null where there are few. */
  density: Readonly<{ low: number; middle: number; high: number }> | null
  /** How density wanders about such places beyond the photo's own grain, as a part of it. */
  grainShare: number
}>

/** Paler is no mark worth a medium (judged). */
const MARK_FROM = 0.15
/** More pixels tell no more of marks. */
const MOST_PX = 5e6
const LIMIT_PX = 12
const LIST = 12
/** Past so many places every second one is looked at, and so on. */
const MOST_PLACES = 20_000
const LEAST_PLACES = 40
/** A place is in the body of its mark where the mark is so many spreads of an edge wide. */
const BODY_SPREADS = 5
const LEAST_BODY_PX = 5
/** Half the side of the square in which grain is measured: at most, and never past the mark's blurred edge. */
const AROUND_MM = 0.4

type Place = Readonly<{ x: number; y: number; widthPx: number; filmCode: number }>

/**
 * @param spreadPx of an edge in the map: what the photo blurs
 * @param noiseOf the photo's own grain at a density
 */
export function marksSeen(
  map: Sheet,
  { spreadPx, noiseOf }: Readonly<{ spreadPx: number; noiseOf: (density: number) => number }>,
): MarksSeen {
  const by = Math.ceil(Math.sqrt((map.widthPx * map.heightPx) / MOST_PX))
  const small = by === 1 ? map : { ...reduced(map, by), pixelMm: map.pixelMm * by }
  const { widthPx, heightPx, pixelMm } = small
  const places = thinned()
  const finder = markFinder({ longPx: 1 / pixelMm, keep: LIST, onAxis: places.add })
  const limits = { belowTransmission: 10 ** -MARK_FROM, limitPx: LIMIT_PX }
  const rows = markRowFinder(widthPx, limits, finder.push)
  const codes = new Uint16Array(widthPx)
  const table = codeTable()
  for (let row = 0; row < heightPx; row += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      codes[x] = table[(small.values[row * widthPx + x] * PER_DENSITY + 0.5) | 0]
    }
    rows.push({ top: row, rows: 1, widthPx, codes, filmCodes: codes })
  }
  rows.finish()
  const { long, longCount, shortCount } = finder.finish()
  const all = places.list()
  const bodyPx = Math.max(LEAST_BODY_PX, (BODY_SPREADS * spreadPx) / by)
  const body = all.filter((place) => place.widthPx >= bodyPx)
  return {
    longCount,
    shortCount,
    weakest: long.map(({ lengthPx, weak }) => ({
      xMm: (weak.x + 0.5) * pixelMm,
      yMm: (weak.y + 0.5) * pixelMm,
      lengthMm: lengthPx * pixelMm,
      widthUm: 1000 * weak.widthPx * pixelMm,
      density: densityOf(weak.filmCode),
    })),
    widthUm: 1000 * pixelMm * at(all.map((place) => place.widthPx).sort(rising), 0.5),
    density: tenths(body),
    grainShare: grainShare(small, body, {
      spreadPx: spreadPx / by,
      noiseOf: (density) => noiseOf(density) / by,
    }),
  }
}

/** Densities to a thousandth, as codes. */
const PER_DENSITY = 1000
const DENSEST = 8

function codeTable(): Uint16Array {
  return Uint16Array.from({ length: DENSEST * PER_DENSITY + 1 }, (_, step) =>
    codeOfLeak(10 ** (-step / PER_DENSITY)),
  )
}

function densityOf(code: number): number {
  return -Math.log10(leakOfCode(code))
}

/** Points of all axes, of which ever fewer are kept as they come. */
function thinned(): Readonly<{
  add: (point: Place) => void
  list: () => readonly Place[]
}> {
  let kept: Place[] = []
  let [every, seen] = [1, 0]
  return {
    add: (point) => {
      seen += 1
      if (seen % every !== 0) return
      kept.push(point)
      if (kept.length < MOST_PLACES) return
      kept = kept.filter((_, place) => place % 2 === 0)
      every *= 2
    },
    list: () => kept,
  }
}

function tenths(body: readonly Place[]): MarksSeen['density'] {
  if (body.length < LEAST_PLACES) return null
  const sorted = body.map(({ filmCode }) => densityOf(filmCode)).sort(rising)
  return { low: at(sorted, 0.1), middle: at(sorted, 0.5), high: at(sorted, 0.9) }
}

/** The middle place's: a square about it, less the photo's own grain. */
function grainShare(
  { widthPx, heightPx, pixelMm, values }: Sheet,
  body: readonly Place[],
  { spreadPx, noiseOf }: Parameters<typeof marksSeen>[1],
): number {
  const widest = Math.max(1, Math.round(AROUND_MM / pixelMm))
  const shares: number[] = []
  for (const place of body) {
    const { x, y } = place
    const around = Math.max(1, Math.min(widest, Math.floor(place.widthPx / 2 - 2 * spreadPx - 1)))
    if (x < around || y < around || x >= widthPx - around || y >= heightPx - around) continue
    let [sum, squares] = [0, 0]
    for (let row = y - around; row <= y + around; row += 1) {
      for (let column = x - around; column <= x + around; column += 1) {
        const density = values[row * widthPx + column]
        sum += density
        squares += density * density
      }
    }
    const n = (2 * around + 1) ** 2
    const mean = sum / n
    const variance = Math.max(0, squares - n * mean * mean) / (n - 1)
    shares.push(Math.sqrt(Math.max(0, variance - noiseOf(mean) ** 2)) / Math.max(0.1, mean))
  }
  return shares.length === 0 ? 0 : at(shares.sort(rising), 0.5)
}

function at(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0
}

function rising(one: number, other: number): number {
  return one - other
}
