import { highlightTone } from '../../core/separation/highlightTone.ts'
import type { FilmPlan, Ink } from '../../core/separation/plan.ts'
import { spotTable } from '../../core/separation/spotTable.ts'
import { type Artwork, SAMPLES } from '../../raster/films/artwork.ts'
import {
  coverAll,
  emptyRow,
  joinedPlates,
  spotPlates,
  type ToneRow,
  type Tones,
} from '../../raster/films/tones.ts'

/**
 * Tones of chosen inks on each other, within the plan's limits; and of a last one for highlights,
 * which the others know nothing of.
 *
 * @param soft for looking from afar: soon worked out
 */
export function chosenTones(
  {
    inks,
    limits = null,
  }: Pick<FilmPlan, 'inks'> & Readonly<{ limits?: FilmPlan['limits'] | null }>,
  { soft }: Readonly<{ soft: boolean }>,
): (artwork: Artwork) => Tones {
  const from = inks.at(-1)?.highlightsFrom
  const printed = from === undefined ? inks : inks.slice(0, -1)
  const table = spotTable(coloursOf(printed), { isCoarse: soft, limits })
  return (artwork) => {
    const tones = pouredInto(printed, spotPlates(artwork, table))
    return from === undefined ? tones : joinedPlates(tones, highlightTones(artwork, from))
  }
}

/** Each colour of the artwork that an ink stands for, as if it were an ink: its own where it names none. */
function coloursOf(inks: readonly Ink[]): readonly Ink[] {
  return inks.flatMap((ink) => (ink.takes ?? [ink.lab]).map((lab) => ({ ...ink, lab })))
}

/**
 * Colours poured into their inks. Where several of one ink lie on each other by chance it covers
 * 1 − Π (1 − a), which is never more than all of them.
 *
 * @source demichel
 */
function pouredInto(inks: readonly Ink[], parted: Tones): Tones {
  const counts = inks.map(({ takes }) => takes?.length ?? 1)
  if (counts.every((count) => count === 1)) return parted
  const { widthPx } = parted
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const out = emptyRow({ plates: inks.length, widthPx })
    for await (const row of parted.rows(from)) {
      let first = 0
      out.forEach((into, ink) => {
        const count = counts[ink] ?? 1
        coverAll(row.slice(first, first + count), into)
        first += count
      })
      yield out
    }
  }
  return { ...parted, plates: inks.length, rows }
}

function highlightTones(artwork: Artwork, from: number): Tones {
  const { widthPx, heightPx, space } = artwork
  const each = SAMPLES[space]
  async function* rows(): AsyncGenerator<ToneRow> {
    const out = emptyRow({ plates: 1, widthPx })
    for await (const band of artwork.bands()) {
      for (let row = 0; row < band.rows; row++) {
        const samples = band.samples.subarray(row * widthPx * each, (row + 1) * widthPx * each)
        if (out[0] !== undefined) lighten(samples, each, from, out[0])
        yield out
      }
    }
  }
  return { plates: 1, widthPx, heightPx, rows }
}

function lighten(samples: Uint8Array, each: number, from: number, into: Uint16Array): void {
  const [green, blue] = each === 1 ? [0, 0] : [1, 2]
  for (let x = 0, at = 0; x < into.length; x++, at += each) {
    const [r = 255, g = 255, b = 255] = [samples[at], samples[at + green], samples[at + blue]]
    into[x] = highlightTone(r, g, b, from)
  }
}
