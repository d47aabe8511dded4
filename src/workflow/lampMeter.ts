import { byMeter, type MeterReading } from '../core/light/byMeter.ts'
import { secondsCorrected, type WarmUp } from '../core/light/warmUp.ts'
import type { Doubtful } from '../core/units/quantity.ts'

export type MeterAnswer = Readonly<{
  given: Doubtful
  moreSec: Doubtful
  /** On the exposure's clock; null where no other reading would help. */
  readAgainSec: number | null
  sentences: readonly string[]
}>

/** The light of one step of the usual wedge, D. @source step-wedge */
const STEP_DENSITY = 0.15
/** Below this nobody runs for the meter again, s; judged. */
const LEAST_REST_SEC = 60
/** A dose known better than this, in steps, needs no other reading; judged. */
const GOOD_STEPS = 0.25
const CAUTION =
  'Never look into the sun or the lamp: lay the meter where the film lies, facing the light, and keep skin and eyes out of it as the lamp’s manual says.'

/**
 * A dose in seconds under a light that is read by hand: how long today, when to read again, and what
 * to write down.
 *
 * @param exposure count: seconds in the light of the reference reading; readings in the order of the
 * clock, the first at its start; warmUp of a lamp that was hot when it was read, null where unknown
 * @throws RangeError as `byMeter` does
 * @source hand-meter, step-wedge
 */
export function meterAnswer({
  count,
  readings,
  reference,
  warmUp,
}: Readonly<{
  count: number
  readings: readonly MeterReading[]
  reference: number
  warmUp: WarmUp | null
}>): MeterAnswer {
  const { given, moreSec, doubtDensity } = byMeter({ count, readings, reference })
  const last = readings.at(-1) ?? { clockSec: 0, reading: reference }
  const steps = doubtDensity / STEP_DENSITY
  const goesOn = moreSec.value >= LEAST_REST_SEC && steps > GOOD_STEPS
  const readAgainSec = goesOn ? last.clockSec + Math.round(moreSec.value / 2) : null
  const within = `within ${steps.toFixed(1)} of a wedge step in nine cases of ten`
  const sure = `Stopped then, the dose is right ${within}.`
  const again =
    readAgainSec === null
      ? 'No other reading is needed, unless a cloud comes.'
      : `Read the meter again at ${clockWords(readAgainSec)}, half of what is left, and sooner if a cloud comes: the rest is reckoned anew.`
  const isFirst = readings.length === 1
  const sentences =
    moreSec.value === 0
      ? [
          `It has had the light of ${round(given.value)} seconds, and ${round(count)} were wanted: cover it now.`,
          `Write down ${round(given.value)} seconds as its dose, not what the clock says; that is right ${within}.`,
        ]
      : [
          isFirst
            ? `${round(count)} seconds take ${round(moreSec.value)} today, ${round(moreSec.low)} to ${round(moreSec.high)}: the meter shows ${figure(last.reading)} and not ${figure(reference)}.`
            : `It has had the light of ${round(given.value)} of ${round(count)} seconds: ${round(moreSec.value)} more, ${round(moreSec.low)} to ${round(moreSec.high)}, until ${clockWords(last.clockSec + moreSec.value)} on the clock.`,
          ...(isFirst && warmUp !== null ? [coldWords(warmUp, moreSec.value)] : []),
          again,
          sure,
        ]
  return { given, moreSec, readAgainSec, sentences: [...sentences, CAUTION] }
}

function coldWords(warmUp: WarmUp, hotSec: number): string {
  const coldSec = secondsCorrected(warmUp, { hotSec })
  return `That is for a lamp as hot as when it was read; from cold, set ${round(coldSec)} seconds.`
}

function round(value: number): string {
  return value < 10 ? String(Number(value.toFixed(1))) : String(Math.round(value))
}

function figure(reading: number): string {
  return String(Number(reading.toPrecision(3)))
}

/** `5:10` */
function clockWords(clockSec: number): string {
  const whole = Math.round(clockSec)
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}
