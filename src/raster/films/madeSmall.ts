/** A picture made small while its rows go by: means of stored values over its squares. */
export type MadeSmall = Readonly<{
  widthPx: number
  heightPx: number
  /** The next row. */
  take: (line: Uint8Array, y: number) => void
  /** Planes of each sample, one after another. */
  planes: () => Uint8Array
}>

/**
 * @param longestPx no side becomes longer; a smaller picture stays as it is
 * @param each bytes a pixel
 */
export function madeSmall(
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
  { longestPx, each = 3 }: Readonly<{ longestPx: number; each?: number }>,
): MadeSmall {
  const scale = Math.min(1, longestPx / Math.max(widthPx, heightPx))
  const wide = Math.max(1, Math.round(widthPx * scale))
  const high = Math.max(1, Math.round(heightPx * scale))
  const plane = wide * high
  const sums = new Float64Array(each * plane)
  const counts = new Uint32Array(plane)
  const columns = Int32Array.from({ length: widthPx }, (_, x) => Math.floor((x * wide) / widthPx))
  return {
    widthPx: wide,
    heightPx: high,
    take: (line, y) => {
      const row = Math.floor((y * high) / heightPx) * wide
      for (let x = 0, at = 0; x < widthPx; x++) {
        const place = row + columns[x]
        counts[place] += 1
        for (let part = 0; part < each; part++, at++) sums[part * plane + place] += line[at]
      }
    },
    planes: () => Uint8Array.from(sums, (sum, at) => Math.round(sum / counts[at % plane])),
  }
}

/**
 * A row of one kind of samples laid into one of more: grey spreads over what it is laid on, shares of
 * ink are told as what they leave of paper.
 *
 * @param from where the row begins among the samples, which have `each` a pixel
 * @param at the first of the bytes of a pixel of the line that it fills, `wide` of `across`
 */
export function layRow(
  samples: Uint8Array,
  { from, each, isInk }: Readonly<{ from: number; each: number; isInk: boolean }>,
  line: Uint8Array,
  { at, wide, across }: Readonly<{ at: number; wide: number; across: number }>,
): void {
  const flip = isInk ? 255 : 0
  for (let to = at, x = from; to < line.length; to += across, x += each) {
    for (let part = 0; part < wide; part++) {
      line[to + part] = samples[each === 1 ? x : x + part] ^ flip
    }
  }
}

/**
 * Part of some rows as planes of each sample, one after another: runs of one byte.
 *
 * @param rows so many rows
 * @param each bytes a pixel
 * @returns null where it is white all over
 */
export function planesOf(
  pixels: Uint8Array,
  {
    widthPx,
    rows,
    from,
    wide,
    each = 3,
  }: Readonly<{ widthPx: number; rows: number; from: number; wide: number; each?: number }>,
): Uint8Array | null {
  const plane = wide * rows
  const planes = new Uint8Array(each * plane)
  let white = 255
  for (let row = 0, to = 0; row < rows; row++) {
    for (let x = 0, at = each * (row * widthPx + from); x < wide; x++, to++) {
      for (let part = 0; part < each; part++, at++) {
        planes[part * plane + to] = pixels[at]
        white &= pixels[at]
      }
    }
  }
  return white === 255 ? null : planes
}
