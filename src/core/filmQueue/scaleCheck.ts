import { expectIn, type Range } from '../units/range.ts'

/** A scale bar: how long it should be. */
export const BAR: Range = { name: 'barMm', low: 10, high: 2000, unit: 'mm' }
/** What a ruler said of it. */
export const MEASURED: Range = { name: 'measuredMm', low: 1, high: 4000, unit: 'mm' }

/** A ruler is read to a quarter of a millimetre. Judged. */
const READ_MM = 0.25
/** Further off than this is no matter of the printer's feed: the sheet was fitted to something. Judged. */
const FEED_SHARE = 0.01
/** So near to a ratio of papers it is that ratio. Judged. */
const ALIKE_SHARE = 0.004
/** A4 and Letter, their short sides and their long ones. */
const PAPER_RATIOS = [210 / 215.9, 279.4 / 297].flatMap((ratio) => [ratio, 1 / ratio])

/** What a measured scale bar says of a film. */
export type ScaleCheck = Readonly<{
  is: 'true' | 'off'
  /** How much longer it came out: 0.003 is three in a thousand; below 0 shorter. */
  offShare: number
  /** What the film is longer over its long side, and what a ruler could not see there; null: size not known. */
  overFilm: Readonly<{ offMm: number; unseenMm: number }> | null
  /** What was likely done; null where it is true. */
  likely: 'fitted to another paper' | 'fitted to the page' | 'the feed' | null
  /** What the printer's scale should be set to, in percent of what it was. */
  setPercent: number
}>

/**
 * What a film's scale bar says, as it was measured with a ruler.
 *
 * @param bar barMm as printed, 10 … 2000; measuredMm, 1 … 4000; filmMm: its long side, null: not known
 * @throws RangeError outside these
 * @source iso216, ansi-y14
 * @limits one way of the film alone; what is off by less than a ruler shows is called true
 */
export function checkScale({
  barMm,
  measuredMm,
  filmMm,
}: Readonly<{ barMm: number; measuredMm: number; filmMm: number | null }>): ScaleCheck {
  expectIn(barMm, BAR)
  expectIn(measuredMm, MEASURED)
  const ratio = measuredMm / barMm
  const is = Math.abs(measuredMm - barMm) <= READ_MM + 1e-9 ? 'true' : 'off'
  return {
    is,
    offShare: ratio - 1,
    overFilm:
      filmMm === null
        ? null
        : { offMm: filmMm * (ratio - 1), unseenMm: (READ_MM / barMm) * filmMm },
    likely: is === 'true' ? null : likelyCause(ratio),
    setPercent: 100 / ratio,
  }
}

function likelyCause(ratio: number): NonNullable<ScaleCheck['likely']> {
  if (PAPER_RATIOS.some((paper) => Math.abs(ratio / paper - 1) <= ALIKE_SHARE)) {
    return 'fitted to another paper'
  }
  return Math.abs(ratio - 1) > FEED_SHARE ? 'fitted to the page' : 'the feed'
}
