import type { Film, FilmBand } from './film.ts'

/** Rows that have come to stand in the middle of the window. */
export type FilmWindow = Readonly<{ top: number; rows: number }>

/**
 * A film's rows as a sliding window: `inner` rows with a margin on all sides, clear film
 * (transmission 1) outside. Film pixel (0, top) of each window stands at (margin, margin).
 *
 * @param film rows that it lacks are clear film
 * @param plan rows top … end − 1 of the film are wanted, `inner` a window; window: inner + 2 margin
 *   rows of `stride` transmissions, or of the film's own samples where those are bytes, filled again
 *   for each; clear: what stands there for clear film
 */
export async function* filmWindows(
  film: Film,
  plan: Readonly<{
    top: number
    end: number
    inner: number
    margin: number
    window: Uint8Array | Float32Array
    stride: number
    clear: number
  }>,
): AsyncGenerator<FilmWindow> {
  const { end, inner, margin, window, stride, clear } = plan
  const { widthPx } = film
  const lastRow = Math.min(film.heightPx, end + margin)
  let { top } = plan
  let next = Math.max(0, top - margin) // film row to come
  window.fill(clear)
  const filled = (): FilmWindow => ({ top, rows: Math.min(inner, end - top) })
  const advance = (): void => {
    window.copyWithin(0, inner * stride)
    window.fill(clear, 2 * margin * stride)
    top += inner
  }
  for await (const band of film.bands()) {
    next = Math.max(next, Math.min(band.top, lastRow))
    for (let row = Math.max(0, next - band.top); row < band.rows && next < lastRow; row += 1) {
      while (next >= top + inner + margin) {
        yield filled()
        advance()
      }
      const at = (next - top + margin) * stride + margin
      copyRow(band, row, film, window.subarray(at, at + widthPx))
      next += 1
    }
    if (next === lastRow) break
  }
  while (top < end) {
    yield filled()
    advance()
  }
}

function copyRow(
  { samples }: FilmBand,
  row: number,
  { widthPx, transmissionOf }: Film,
  target: Uint8Array | Float32Array,
): void {
  const from = row * widthPx
  if (target instanceof Uint8Array) target.set(samples.subarray(from, from + widthPx))
  else if (transmissionOf === null) {
    for (let x = 0; x < widthPx; x += 1) target[x] = Math.exp(-Math.LN10 * samples[from + x])
  } else {
    for (let x = 0; x < widthPx; x += 1) target[x] = transmissionOf[samples[from + x]]
  }
}
