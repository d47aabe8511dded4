import type { Doubtful } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** What a hand light meter showed at a second of the exposure, in whatever unit it has. */
export type MeterReading = Readonly<{ clockSec: number; reading: number }>

/** An exposure under a light that is read by hand, as it stands at the last reading. */
export type ByMeter = Readonly<{
  /** Counts until the last reading. */
  given: Doubtful
  /** Seconds still to go after it; 0 where it has had enough. */
  moreSec: Doubtful
  /** The 90 % range of the whole dose if it is stopped then, either way, D. */
  doubtDensity: number
}>

/** A meter's reading. */
const READING: Range = { name: 'reading', low: 1e-6, high: 1e9, unit: 'of the meter' }
/** Seconds of one exposure. */
const EXPOSURE_CLOCK: Range = { name: 'clockSec', low: 0, high: 86_400, unit: 's' }
const DOSE: Range = { name: 'count', low: 1e-6, high: 1e9, unit: 'counts' }

/** How well a hand holds a meter and an eye reads it, one sd of the natural log.
 * @source hand-meter */
const HELD_SD = 0.03
/** How far a clear sky's light wanders, variance of the natural log in a second: a tenth in ten
 * minutes. @source hand-meter */
const CLEAR_SKY_PER_SEC = 0.1 ** 2 / 600
/** Normal deviate of a 90 % range. */
const NINETY_PERCENT = 1.645

/**
 * Light that moves, from readings during the exposure: what was given so far (straight lines between
 * readings), how long it still takes if the light stays as it was last, and how sure that is. Each
 * reading is doubtful by the hand that held the meter, the light between and after them by how it
 * wanders: as a clear sky, or more where these very readings moved more.
 *
 * @param exposure readings in the order of the clock, the first when the light was let in;
 * reference: the reading at which a second gives one count; count: the dose
 * @returns counts and seconds; 90 % ranges
 * @throws RangeError without a reading, or with two at one second
 * @source hand-meter
 * @limits a meter sees its own colours of light and not the emulsion's: low sun and haze fool it
 */
export function byMeter({
  readings,
  reference,
  count,
}: Readonly<{ readings: readonly MeterReading[]; reference: number; count: number }>): ByMeter {
  expectIn(reference, { ...READING, name: 'reference' })
  expectIn(count, DOSE)
  const last = readings.at(-1)
  if (last === undefined) throw new RangeError('readings: expected one at least')
  const perSec = readings.map(({ clockSec, reading }) => {
    expectIn(clockSec, EXPOSURE_CLOCK)
    expectIn(reading, READING)
    return reading / reference
  })
  const gaps = gapsOf(readings, perSec)
  const given = gaps.reduce((sum, { sec, mean }) => sum + sec * mean, 0)
  const now = last.reading / reference
  const moreSec = Math.max(0, count - given) / now
  const wander = wanderPerSec(gaps)
  // the seconds for which each reading stands, half of each gap beside it and all that is to come
  const standing = perSec.map((_, at) => ((gaps[at - 1]?.sec ?? 0) + (gaps[at]?.sec ?? 0)) / 2)
  const held = (restSec: number): number =>
    perSec.reduce((sum, rate, at) => {
      const sec = (standing[at] ?? 0) + (at === perSec.length - 1 ? restSec : 0)
      return sum + (HELD_SD * rate * sec) ** 2
    }, 0)
  // a wandering level between two known ends, and after the last
  const between =
    gaps.reduce((sum, { sec, mean }) => sum + (sec * mean) ** 2 * wander * sec, 0) / 12
  const after = ((now * moreSec) ** 2 * wander * moreSec) / 3
  const sdGiven = Math.sqrt(held(0) + between)
  const whole = given + now * moreSec
  const doubt = (NINETY_PERCENT * Math.sqrt(held(moreSec) + between + after)) / whole
  const more = (by: number): number => Math.max(0, (count * by - given) / now)
  return {
    given: {
      value: given,
      low: given === 0 ? 0 : given * Math.exp((-NINETY_PERCENT * sdGiven) / given),
      high: given === 0 ? 0 : given * Math.exp((NINETY_PERCENT * sdGiven) / given),
      confidence: 0.9,
    },
    moreSec:
      moreSec === 0
        ? { value: 0, low: 0, high: 0, confidence: 0.9 }
        : {
            value: moreSec,
            low: more(Math.exp(-doubt)),
            high: more(Math.exp(doubt)),
            confidence: 0.9,
          },
    doubtDensity: doubt / Math.LN10,
  }
}

type Gap = Readonly<{ sec: number; mean: number; moved: number }>

function gapsOf(readings: readonly MeterReading[], perSec: readonly number[]): readonly Gap[] {
  return readings.slice(1).map(({ clockSec, reading }, before) => {
    const from = readings[before] ?? { clockSec: 0, reading }
    const sec = clockSec - from.clockSec
    if (!(sec > 0))
      throw new RangeError(`clockSec: expected more than ${from.clockSec}, got ${clockSec}`)
    const mean = ((perSec[before] ?? 0) + (perSec[before + 1] ?? 0)) / 2
    return { sec, mean, moved: Math.log(reading / from.reading) }
  })
}

/** As a clear sky, or as these readings moved beyond what a hand explains. */
function wanderPerSec(gaps: readonly Gap[]): number {
  const moved = gaps.reduce(
    (sum, { sec, moved }) => sum + Math.max(0, moved ** 2 - 2 * HELD_SD ** 2) / sec,
    0,
  )
  return gaps.length === 0 ? CLEAR_SKY_PER_SEC : Math.max(CLEAR_SKY_PER_SEC, moved / gaps.length)
}
