/** A picture made small while its rows go by: means of stored values over its squares. */
export type MadeSmall = Readonly<{
  widthPx: number
  heightPx: number
  /** The next row, three bytes a pixel. */
  take: (line: Uint8Array, y: number) => void
  /** Planes of red, green and blue, one after another. */
  planes: () => Uint8Array
}>

/** @param longestPx no side becomes longer; a smaller picture stays as it is */
export function madeSmall(
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
  { longestPx }: Readonly<{ longestPx: number }>,
): MadeSmall {
  const scale = Math.min(1, longestPx / Math.max(widthPx, heightPx))
  const wide = Math.max(1, Math.round(widthPx * scale))
  const high = Math.max(1, Math.round(heightPx * scale))
  const plane = wide * high
  const sums = new Float64Array(3 * plane)
  const counts = new Uint32Array(plane)
  const columns = Int32Array.from({ length: widthPx }, (_, x) => Math.floor((x * wide) / widthPx))
  return {
    widthPx: wide,
    heightPx: high,
    take: (line, y) => {
      const row = Math.floor((y * high) / heightPx) * wide
      for (let x = 0, at = 0; x < widthPx; x++, at += 3) {
        const place = row + columns[x]
        counts[place] += 1
        sums[place] += line[at]
        sums[plane + place] += line[at + 1]
        sums[2 * plane + place] += line[at + 2]
      }
    },
    planes: () => Uint8Array.from(sums, (sum, at) => Math.round(sum / counts[at % plane])),
  }
}

/** A row of grey or sRGB as three bytes a pixel. */
export function spreadRow(
  samples: Uint8Array,
  { from, each }: Readonly<{ from: number; each: number }>,
  line: Uint8Array,
): void {
  if (each === 3) {
    line.set(samples.subarray(from, from + line.length))
    return
  }
  for (let at = 0, x = from; at < line.length; at += 3, x++) {
    const grey = samples[x]
    line[at] = grey
    line[at + 1] = grey
    line[at + 2] = grey
  }
}

/**
 * Part of some rows as planes of red, green and blue, one after another: runs of one byte.
 *
 * @param rows so many rows of three bytes a pixel
 * @returns null where it is white all over
 */
export function planesOf(
  pixels: Uint8Array,
  {
    widthPx,
    rows,
    from,
    wide,
  }: Readonly<{ widthPx: number; rows: number; from: number; wide: number }>,
): Uint8Array | null {
  const plane = wide * rows
  const planes = new Uint8Array(3 * plane)
  let white = 255
  for (let row = 0, to = 0; row < rows; row++) {
    for (let x = 0, at = 3 * (row * widthPx + from); x < wide; x++, at += 3, to++) {
      const [red, green, blue] = [pixels[at], pixels[at + 1], pixels[at + 2]]
      planes[to] = red
      planes[plane + to] = green
      planes[2 * plane + to] = blue
      white &= red & green & blue
    }
  }
  return white === 255 ? null : planes
}
