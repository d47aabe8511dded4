import type { Film, FilmBand } from './film.ts'

/**
 * A film's rows as a sliding window: `rows` rows from `top` with a margin on all sides, clear
 * film (transmission 1) outside. The same arrays are used again for the next window.
 */
export type FilmWindow = Readonly<{
  top: number
  /** Rows that are new and wanted; the last window may have fewer. */
  rows: number
  widthPx: number
  /** inner + 2 margin rows of `stride` transmissions; film pixel (0, top) stands at (margin, margin). */
  values: Float32Array
  stride: number
  height: number
}>

/** @param sizes inner rows a window, margin around them; the stride holds whole tiles of inner columns */
export async function* filmWindows(
  film: Film,
  { inner, margin }: Readonly<{ inner: number; margin: number }>,
): AsyncGenerator<FilmWindow> {
  const { widthPx, heightPx } = film
  const stride = Math.ceil(widthPx / inner) * inner + 2 * margin
  const height = inner + 2 * margin
  const values = new Float32Array(stride * height).fill(1)
  let top = 0
  let next = 0 // film row to come
  const window = (): FilmWindow => ({
    top,
    rows: Math.min(inner, heightPx - top),
    widthPx,
    values,
    stride,
    height,
  })
  const advance = (): void => {
    values.copyWithin(0, inner * stride)
    values.fill(1, 2 * margin * stride)
    top += inner
  }
  for await (const band of film.bands()) {
    for (let row = 0; row < band.rows; row += 1) {
      while (next >= top + inner + margin) {
        yield window()
        advance()
      }
      const at = (next - top + margin) * stride + margin
      copyRow(band, row, film, values.subarray(at, at + widthPx))
      next += 1
    }
  }
  while (top < heightPx) {
    yield window()
    advance()
  }
}

function copyRow(
  { samples }: FilmBand,
  row: number,
  { widthPx, transmissionOf }: Film,
  target: Float32Array,
): void {
  const from = row * widthPx
  if (transmissionOf === null) {
    for (let x = 0; x < widthPx; x += 1) target[x] = Math.exp(-Math.LN10 * samples[from + x])
  } else {
    for (let x = 0; x < widthPx; x += 1) target[x] = transmissionOf[samples[from + x]]
  }
}
