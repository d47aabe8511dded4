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

/** A bar as it should be and as a ruler said. */
export type Bar = Readonly<{ barMm: number; measuredMm: number }>

/** What measured scale bars say of a film. */
export type ScaleCheck = Readonly<{
  /** True in every way that was measured. */
  is: 'true' | 'off'
  /** How much longer it came out: 0.003 is three in a thousand; below 0 shorter. Both ways: their mean. */
  offShare: number
  /** How both ways stand to one another; null: the one way alone was measured. */
  ways: Readonly<{
    are: 'alike' | 'stretched along' | 'stretched across'
    alongShare: number
    acrossShare: number
  }> | null
  /** What the film is longer over its long side, and what a ruler could not see there; null: size not known. */
  overFilm: Readonly<{ longMm: number; offMm: number; unseenMm: number }> | null
  /** What was likely done; null where it is true. */
  likely: 'fitted to another paper' | 'fitted to the page' | 'the feed' | null
  /** What the printer's scale should be set to, in percent of what it was. */
  setPercent: number
}>

/**
 * What a film's scale bars say, as they were measured with a ruler.
 *
 * The two ways are alike where a ruler cannot tell them apart: |m₁/b₁ − m₂/b₂| ≤ r √(1/b₁² + 1/b₂²),
 * r what a ruler is read to. Else the longer way was stretched.
 *
 * @param film barMm as printed, 10 … 2000; measuredMm, 1 … 4000; across: the same the other way,
 * null: not measured; filmMm: its long side, null: not known
 * @throws RangeError outside these
 * @source iso216, ansi-y14
 * @limits what is off by less than a ruler shows is called true
 */
export function checkScale({
  barMm,
  measuredMm,
  across = null,
  filmMm,
}: Bar & Readonly<{ across?: Bar | null; filmMm: number | null }>): ScaleCheck {
  const bars = [{ barMm, measuredMm }, ...(across === null ? [] : [across])]
  for (const bar of bars) {
    expectIn(bar.barMm, BAR)
    expectIn(bar.measuredMm, MEASURED)
  }
  const isTrue = (bar: Bar): boolean => Math.abs(bar.measuredMm - bar.barMm) <= READ_MM + 1e-9
  const is = bars.every(isTrue) ? 'true' : 'off'
  const ratio = bars.reduce((sum, bar) => sum + bar.measuredMm / bar.barMm, 0) / bars.length
  return {
    is,
    offShare: ratio - 1,
    ways: across === null ? null : waysOf({ barMm, measuredMm }, across),
    overFilm:
      filmMm === null
        ? null
        : { longMm: filmMm, offMm: filmMm * (ratio - 1), unseenMm: (READ_MM / barMm) * filmMm },
    likely: is === 'true' ? null : likelyCause(ratio),
    setPercent: 100 / ratio,
  }
}

function waysOf(along: Bar, across: Bar): NonNullable<ScaleCheck['ways']> {
  const [alongShare, acrossShare] = [along, across].map(
    ({ barMm, measuredMm }) => measuredMm / barMm - 1,
  ) as [number, number]
  const apart = alongShare - acrossShare
  const tellsApart = Math.hypot(READ_MM / along.barMm, READ_MM / across.barMm)
  const stretched = apart > 0 ? 'stretched along' : 'stretched across'
  return {
    are: Math.abs(apart) <= tellsApart + 1e-9 ? 'alike' : stretched,
    alongShare,
    acrossShare,
  }
}

function likelyCause(ratio: number): NonNullable<ScaleCheck['likely']> {
  if (PAPER_RATIOS.some((paper) => Math.abs(ratio / paper - 1) <= ALIKE_SHARE)) {
    return 'fitted to another paper'
  }
  return Math.abs(ratio - 1) > FEED_SHARE ? 'fitted to the page' : 'the feed'
}
