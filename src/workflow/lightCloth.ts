import { chanceHold, chancesAt } from '../core/calibration/belief/chances.ts'
import { clothOf } from '../core/calibration/belief/cloth.ts'
import type { Outlook } from '../core/calibration/belief/question.ts'
import { type Doubtful, type Lu, lu } from '../core/units/quantity.ts'

/** The ends of a cloth, on the unit's counter. */
export type LightScale = Readonly<{ lowLu: number; highLu: number }>

/** Which doses work, as a cloth on a logarithmic scale of the unit's counter. */
export type LightCloth = Readonly<{
  lowLu: number
  highLu: number
  /** Where each thread along ends, palest or least likely first. */
  along: readonly number[]
  across: readonly Readonly<{ doseLu: number; share: number }>[]
  /** Chance of good: marks open, ground sound. */
  good: readonly Readonly<{ doseLu: number; chance: number }>[]
  /** Chance that the marks open and the ground stays, sound or soft. */
  woven: readonly Readonly<{ doseLu: number; chance: number }>[]
}>

const THREADS_ALONG = 7
const THREADS_ACROSS = 32
const GROUNDS = 33
/** How far the scale goes on beyond the doses that should work. */
const BEYOND = 1.5
/** A chance that draws no thread to speak of. */
const HARDLY = 0.04
const ROUND = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10]

/**
 * Where the cloth of one dose tells most: from hardly a ground that stays to well beyond the doses
 * that should work.
 *
 * @param counts what the counter shows for one light unit
 */
export function clothEnds(
  outlook: Outlook,
  { dose, counts }: Readonly<{ dose: Doubtful; counts: number }>,
): LightScale {
  const low = Math.min(dose.low / BEYOND, counts * washesFrom(outlook, dose.low / counts))
  return { lowLu: roundDown(low), highLu: roundUp(dose.high * BEYOND) }
}

/**
 * The cloth of an outlook. Threads along end at quantiles of the belief, or where a film's own
 * marks do, of which as many are kept, in equal shares.
 *
 * @param own doses at which the film's marks close, palest first; null for a medium
 * @param counts what the counter shows for one light unit
 */
export function lightCloth(
  outlook: Outlook,
  {
    scale: { lowLu, highLu },
    counts,
    own,
  }: Readonly<{ scale: LightScale; counts: number; own: readonly number[] | null }>,
): LightCloth {
  const { alongEndsLu, across } = clothOf(outlook, {
    along: THREADS_ALONG,
    acrossLu: ladder({ lowLu, highLu }, THREADS_ACROSS).map((count) => lu(count / counts)),
  })
  const shown = (doseLu: Lu): number => counts * doseLu
  const grounds = ladder({ lowLu, highLu }, GROUNDS).map((doseLu) => ({
    doseLu,
    ...chancesAt(outlook, lu(doseLu / counts)),
  }))
  return {
    lowLu,
    highLu,
    along: own === null || own.length === 0 ? alongEndsLu.map(shown) : ends(own),
    across: across.map(({ doseLu, lengthShare }) => ({
      doseLu: shown(doseLu),
      share: lengthShare,
    })),
    good: grounds.map(({ doseLu, good }) => ({ doseLu, chance: good })),
    woven: grounds.map(({ doseLu, openAndHold }) => ({ doseLu, chance: openAndHold })),
  }
}

/** A dose, going down from one that should work, at which the ground hardly ever stays. */
function washesFrom(outlook: Outlook, fromLu: number): number {
  let doseLu = fromLu
  while (doseLu > fromLu / 100 && chanceHold(outlook, Math.log10(doseLu)) > HARDLY) doseLu /= 1.12
  return doseLu
}

/** The middle of each of seven equal shares. */
function ends(own: readonly number[]): readonly number[] {
  if (own.length <= THREADS_ALONG) return own
  return Array.from({ length: THREADS_ALONG }, (_, at) => {
    const place = Math.floor(((at + 0.5) / THREADS_ALONG) * own.length)
    return own[place] ?? 0
  })
}

/** Doses in equal ratios, both ends included. */
function ladder(
  { lowLu, highLu }: Readonly<{ lowLu: number; highLu: number }>,
  count: number,
): readonly number[] {
  return Array.from({ length: count }, (_, at) => lowLu * (highLu / lowLu) ** (at / (count - 1)))
}

function roundDown(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value))
  const fits = ROUND.filter((round) => round * decade <= value * (1 + 1e-12))
  return Number(((fits.at(-1) ?? 1) * decade).toPrecision(3))
}

function roundUp(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value))
  const first = ROUND.find((round) => round * decade >= value * (1 - 1e-12))
  return Number(((first ?? 10) * decade).toPrecision(3))
}
