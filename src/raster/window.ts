import type { Film, FilmBand } from './film.ts'

/** Rows that have come to stand in the middle of the window. */
export type FilmWindow = Readonly<{ top: number; rows: number }>

/**
 * A film's rows as a sliding window: `inner` rows with a margin on all sides, clear film
 * (transmission 1) outside. Film pixel (0, top) of each window stands at (margin, margin).
 *
 * @param plan rows top … end − 1 of the film are wanted, `inner` a window; values: inner + 2 margin
 *   rows of `stride` transmissions, filled again for each
 */
export async function* filmWindows(
  film: Film,
  plan: Readonly<{
    top: number
    end: number
    inner: number
    margin: number
    values: Float32Array
    stride: number
  }>,
): AsyncGenerator<FilmWindow> {
  const { end, inner, margin, values, stride } = plan
  const { widthPx } = film
  const lastRow = Math.min(film.heightPx, end + margin)
  let { top } = plan
  let next = Math.max(0, top - margin) // film row to come
  values.fill(1)
  const window = (): FilmWindow => ({ top, rows: Math.min(inner, end - top) })
  const advance = (): void => {
    values.copyWithin(0, inner * stride)
    values.fill(1, 2 * margin * stride)
    top += inner
  }
  for await (const band of film.bands()) {
    for (let row = Math.max(0, next - band.top); row < band.rows && next < lastRow; row += 1) {
      while (next >= top + inner + margin) {
        yield window()
        advance()
      }
      const at = (next - top + margin) * stride + margin
      copyRow(band, row, film, values.subarray(at, at + widthPx))
      next += 1
    }
    if (next === lastRow) break
  }
  while (top < end) {
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
