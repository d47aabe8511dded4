import type { Film, FilmBand } from './film.ts'
import type { Rows } from './leakMap.ts'

/** Some of a film's rows in memory, with what has a part in them from above and below. */
export type FilmPart = Readonly<{
  rows: Rows
  /** The film's rows from `first` on, whole rows. */
  first: number
  samples: FilmBand['samples']
}>

/**
 * Cuts a film into parts while it streams past once.
 *
 * @param parts from top to bottom without a gap
 * @param margin rows that each part has more above and below, where the film has them
 */
export async function* filmParts(
  film: Film,
  { parts, margin }: Readonly<{ parts: readonly Rows[]; margin: number }>,
): AsyncGenerator<FilmPart> {
  const { widthPx, heightPx } = film
  let growing: (FilmPart & { end: number })[] = []
  let at = 0
  for await (const { top, rows, samples } of film.bands()) {
    const end = top + rows
    for (let part = parts[at]; part !== undefined && part.top - margin < end; part = parts[at]) {
      const first = Math.max(0, part.top - margin)
      const last = Math.min(heightPx, part.end + margin)
      const own = emptyLike(samples, (last - first) * widthPx)
      growing.push({ rows: part, first, end: last, samples: own })
      at += 1
    }
    for (const { first, end: last, samples: own } of growing) {
      const [from, to] = [Math.max(first, top), Math.min(last, end)]
      if (from >= to) continue
      const here = samples.subarray((from - top) * widthPx, (to - top) * widthPx)
      own.set(here, (from - first) * widthPx)
    }
    const whole = growing.filter((part) => part.end <= end)
    growing = growing.filter((part) => part.end > end)
    for (const { rows: own, first, samples: taken } of whole) {
      yield { rows: own, first, samples: taken }
    }
  }
}

/** The part as a film of its own: of the whole film's size, with these rows alone. */
export function filmOfPart({ first, samples }: FilmPart, film: Omit<Film, 'bands'>): Film {
  const band = { top: first, rows: samples.length / film.widthPx, samples }
  return {
    ...film,
    async *bands() {
      yield band
    },
  }
}

function emptyLike(samples: FilmBand['samples'], length: number): FilmBand['samples'] {
  if (samples instanceof Float32Array) return new Float32Array(length)
  return samples instanceof Uint16Array ? new Uint16Array(length) : new Uint8Array(length)
}
