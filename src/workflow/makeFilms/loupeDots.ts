import type { FilmPlan } from '../../core/separation/plan.ts'
import { rowBytesOf } from '../../formats/bilevel.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import type { Screen } from '../../raster/films/screen.ts'
import type { FilmSize } from './filmSize.ts'
import { plateTones } from './plates.ts'

/** A square of one plate's film as bits: 1 for black, a byte each. */
export type LoupeDots = Readonly<{ sidePx: number; black: Uint8Array }>

/** A part of the artwork's own pixels, from the left and the top. */
export type ArtworkPart = Readonly<{
  part: Artwork
  leftPx: number
  topPx: number
  /** Of the whole. */
  widthPx: number
  heightPx: number
}>

/**
 * A square of a plate as its film will have it, dot for dot, from a part of the artwork that holds
 * it with a rim about it.
 *
 * @param at its left and top on the film, in film pixels
 */
export async function loupeDots(
  { part, leftPx, topPx, widthPx, heightPx }: ArtworkPart,
  {
    plan,
    size,
    plate,
    screen,
    at,
    sidePx,
  }: Readonly<{
    plan: FilmPlan
    size: FilmSize
    plate: number
    /** The plate's own, as `plateScreen` has it. */
    screen: Screen
    at: Readonly<{ xPx: number; yPx: number }>
    sidePx: number
  }>,
): Promise<LoupeDots> {
  const [across, down] = [size.widthPx / widthPx, size.heightPx / heightPx]
  const [left, top] = [Math.round(leftPx * across), Math.round(topPx * down)]
  const partSize = {
    ...size,
    widthPx: Math.max(1, Math.round(part.widthPx * across)),
    heightPx: Math.max(1, Math.round(part.heightPx * down)),
  }
  const right = at.xPx + sidePx
  // a screen counts its dots from the film's left rim
  const line = new Uint16Array(right)
  const bits = new Uint8Array(rowBytesOf({ widthPx: right }))
  const black = new Uint8Array(sidePx * sidePx)
  let y = top - 1
  for await (const row of plateTones(part, plan, partSize, { isDrawn: true }).rows()) {
    y += 1
    if (y < at.yPx) continue
    if (y >= at.yPx + sidePx) break
    const own = row[plate]
    if (own === undefined) throw new RangeError(`plate: expected less than ${row.length}`)
    line.fill(0)
    const from = Math.max(0, at.xPx - left)
    line.set(own.subarray(from, from + right - Math.max(at.xPx, left)), Math.max(at.xPx, left))
    screen.drawn(y, line, bits)
    for (let x = 0; x < sidePx; x++) {
      const place = at.xPx + x
      const byte = bits[place >> 3] ?? 0
      black[(y - at.yPx) * sidePx + x] = (byte >> (7 - (place & 7))) & 1
    }
  }
  return { sidePx, black }
}
