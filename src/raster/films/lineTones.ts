import { SOLID } from '../../core/halftone/solid.ts'
import type { NearestInk } from '../../core/separation/nearestInk.ts'
import { filmRowsHolding } from '../../kernels/filmRows.ts'
import type { Artwork } from './artwork.ts'
import { mixtureAt, type Neighbourhood } from './edgeMixture.ts'
import { plainRows } from './plainRows.ts'
import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/** Rows above and below that the colour of a pixel is explained by, and one more to judge those. */
const REACH = 2
const KEPT = 2 * (REACH + 1) + 1

/**
 * How much of each pixel is each ink's: all of it in flat parts, shares of two where an edge was
 * smoothed, so that enlarging finds the edge again within the pixel. What is left is paper.
 */
export function lineShares(
  artwork: Artwork,
  { inks, nearest }: Readonly<{ inks: number; nearest: NearestInk }>,
): Tones {
  const { widthPx, heightPx } = artwork
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const kept = Array.from({ length: KEPT }, () => ({
      rgb: new Uint8Array(3 * widthPx),
      packed: new Int32Array(widthPx),
      ink: new Uint8Array(widthPx),
      flat: new Uint8Array(widthPx),
    }))
    const rowAt = (y: number): Neighbourhood['rows'][number] =>
      kept[Math.min(heightPx - 1, Math.max(0, y)) % KEPT]
    const out = emptyRow({ plates: inks, widthPx })
    const finish = (y: number): ToneRow => {
      const near: Neighbourhood = {
        widthPx,
        rows: Array.from({ length: 2 * REACH + 1 }, (_, at) => rowAt(y + at - REACH)),
        reach: REACH,
        nearest,
      }
      fill(out, near)
      return out
    }
    // far enough above for all that is looked at from there on
    const begin = Math.max(0, from - 2 * KEPT)
    let [read, done, judged, top] = [begin, begin, begin, 0]
    for await (const band of artwork.bands()) {
      const length = band.samples.length / band.rows
      const first = Math.max(0, begin - top)
      top += band.rows
      for (let row = first; row < band.rows; row++) {
        const samples = band.samples.subarray(row * length, (row + 1) * length)
        take(samples, artwork, { into: kept[read % KEPT], nearest })
        read += 1
        if (read >= judged + 2) {
          judge(rowAt(judged - 1), rowAt(judged), rowAt(judged + 1), widthPx)
          judged += 1
        }
        if (judged > done + REACH) {
          if (done >= from) yield finish(done)
          done += 1
        }
      }
    }
    judge(rowAt(judged - 1), rowAt(judged), rowAt(judged), widthPx)
    for (; done < heightPx; done++) if (done >= from) yield finish(done)
  }
  return { plates: inks, widthPx, heightPx, rows }
}

/** Each pixel wholly the ink that has most of it, or paper. Rows are changed where they lie. */
export function decided(shares: Tones): Tones {
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    for await (const row of shares.rows(from)) {
      const [first] = row
      const rowsOfKernel = first === undefined ? null : filmRowsHolding(first)
      ;(rowsOfKernel ?? PLAIN).decide(row)
      yield row
    }
  }
  return { ...shares, rows }
}

/** For artwork with as many pixels as its film, which lies in no kernel. */
const PLAIN = plainRows()

type Kept = Neighbourhood['rows'][number]

function take(
  samples: Uint8Array,
  { space, widthPx }: Artwork,
  { into, nearest }: Readonly<{ into: Kept; nearest: NearestInk }>,
): void {
  const { rgb, packed, ink } = into
  if (space === 'grey') {
    for (let at = 0; at < 3 * widthPx; at++) rgb[at] = samples[Math.floor(at / 3)]
  } else rgb.set(samples)
  for (let x = 0, at = 0; x < widthPx; x++, at += 3) {
    const colour = (rgb[at] << 16) | (rgb[at + 1] << 8) | rgb[at + 2]
    packed[x] = colour
    ink[x] =
      x > 0 && colour === packed[x - 1] ? ink[x - 1] : nearest(rgb[at], rgb[at + 1], rgb[at + 2])
  }
}

/** So much may the parts of two flat neighbours' colours differ. */
const FLAT_LEVELS = 24

/** A pixel is flat where one of the four squares of two by two about it is of one colour. */
function judge(above: Kept, here: Kept, below: Kept, widthPx: number): void {
  const [own, upper] = [here.packed, above.packed]
  for (let x = 0; x < widthPx; x++) {
    const colour = own[x]
    // most of a picture of flat colours is as its neighbours are, to the bit
    if (x > 0 && colour === own[x - 1] && colour === upper[x] && colour === upper[x - 1]) {
      here.flat[x] = 1
      continue
    }
    here.flat[x] =
      isFlat(here, above, x, x - 1, widthPx) ||
      isFlat(here, above, x, x + 1, widthPx) ||
      isFlat(here, below, x, x - 1, widthPx) ||
      isFlat(here, below, x, x + 1, widthPx)
        ? 1
        : 0
  }
}

function isFlat(here: Kept, other: Kept, x: number, beside: number, widthPx: number): boolean {
  if (beside < 0 || beside >= widthPx) return false
  return (
    isAlike(here.rgb, x, here.rgb, beside) &&
    isAlike(here.rgb, x, other.rgb, x) &&
    isAlike(here.rgb, x, other.rgb, beside)
  )
}

function isAlike(one: Uint8Array, x: number, other: Uint8Array, beside: number): boolean {
  const [at, to] = [3 * x, 3 * beside]
  return (
    Math.abs(one[at] - other[to]) <= FLAT_LEVELS &&
    Math.abs(one[at + 1] - other[to + 1]) <= FLAT_LEVELS &&
    Math.abs(one[at + 2] - other[to + 2]) <= FLAT_LEVELS
  )
}

function fill(out: ToneRow, near: Neighbourhood): void {
  for (const plate of out) plate.fill(0)
  const here = near.rows[near.reach]
  for (let x = 0; x < near.widthPx; x++) {
    const own = here.ink[x]
    if (here.flat[x] === 1) {
      if (own < out.length) out[own][x] = SOLID
      continue
    }
    const { first, second, secondShare } = mixtureAt(x, near)
    const part = Math.round(secondShare * SOLID)
    if (first < out.length) out[first][x] = SOLID - part
    if (second < out.length && part > 0) out[second][x] += part
  }
}
