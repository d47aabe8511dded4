import type { Replay } from '../core/calibration/belief/replay.ts'
import type { ShopFacts } from '../core/calibration/belief/state.ts'
import type { DriftKind } from '../core/calibration/drift/causes.ts'
import { jumpsFound, STEP } from '../core/calibration/drift/jumps.ts'
import { referenceDayOf } from '../core/calibration/drift/reference.ts'
import { watchDrift } from '../core/calibration/drift/watch.ts'
import type { ThingKind } from '../core/calibration/drift/witnesses.ts'
import { isoOfDay } from './calendarDay.ts'
import type { CalibrationProblem, DayForm } from './calibrationProblem.ts'
import { dayName, isDay } from './papers/dayWords.ts'
import { dayShown } from './readCalibrationDays.ts'
import { doseWords } from './readingWords.ts'

/** Something that is not as it was. */
export type CalibrationDrift = Readonly<{
  /** Since when, written as the days of the problem are. */
  day: string | number
  /** What most likely moved; `jump` where too little was read to say. */
  kind: DriftKind | 'jump'
  reason: string
  /** By how many wedge steps of 0.15; above 0: more light is wanted. */
  steps: number
  chance: number
  /** What it may be as well. */
  others: readonly string[]
  /** What would tell them apart; empty for a jump. */
  test: string
}>

const USUAL_NAMES: Readonly<Record<ThingKind, string>> = {
  unit: 'the lamp',
  batch: 'the bucket',
  fabric: 'the fabric',
}

/**
 * What moved, by charts against what was known once enough had been read; before that, days on
 * which the ground suddenly wanted another dose.
 *
 * @source drift-causes, jump-hypothesis
 */
export function driftFound(
  { evidence, days: form }: CalibrationProblem,
  { days, shop }: Pick<Replay, 'days'> & Readonly<{ shop: ShopFacts }>,
): readonly CalibrationDrift[] {
  const accepted = referenceDayOf(evidence)
  const evening = accepted === null ? undefined : days.find(({ day }) => day === accepted)
  const { alarms } = watchDrift(evidence, {
    shop,
    words: {
      dayName: (day) => dayWordsOf(day, form),
      nameOf: (kind, name) => (name === '' ? USUAL_NAMES[kind] : name),
      dose: doseWords,
    },
    reference: evening && accepted !== null ? { belief: evening.belief, day: accepted } : undefined,
    days,
  })
  if (alarms.length > 0) {
    return alarms.map(({ day, kind, headline, sentence, steps, chance, others, test }) => {
      const reason = `${headline} ${sentence}`
      return { day: dayShown(day, form), kind, reason, steps, chance, others, test }
    })
  }
  return jumpsFound(days).map(({ day, chance, steps }) => {
    const times = (10 ** (STEP * steps)).toFixed(1)
    const reason = `The ground suddenly wanted about ${times} times the light.`
    return { day: dayShown(day, form), kind: 'jump', reason, steps, chance, others: [], test: '' }
  })
}

function dayWordsOf(day: number, form: DayForm): string {
  if (form !== 'date') return `day ${day}`
  const iso = isoOfDay(day)
  return isDay(iso) ? dayName(iso) : iso
}
