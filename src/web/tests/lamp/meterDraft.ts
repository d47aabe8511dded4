import type { MeterQuestion } from '../../../api/lamp.ts'
import { clockWritten, DOSE, numberWritten, valueOf } from '../written.ts'
import { METER_WORDS } from './meterWords.ts'

/** Clock and meter as they were typed; the first reading is the start. */
export type ReadingDraft = Readonly<{ clock: string; reading: string }>
export type MeterDraft = Readonly<{ count: string; readings: readonly ReadingDraft[] }>

export const START: ReadingDraft = { clock: '0:00', reading: '' }
export const NO_READING: ReadingDraft = { clock: '', reading: '' }
/** What a meter may show. */
export const METER = { low: 1e-6, high: 1e9 }

export type MeterWrong = Readonly<{
  count: string | null
  /** By the reading's place in the list. */
  readings: Readonly<Record<number, string>>
}>

/** The question as it goes out, or what is wrong with it. Rows with nothing in them are not told. */
export function meterOf(
  { count, readings }: MeterDraft,
  unit: string,
):
  | Readonly<{ question: MeterQuestion; wrong: null }>
  | Readonly<{ question: null; wrong: MeterWrong }> {
  const counted = numberWritten(count, DOSE)
  const isTold = ({ clock, reading }: ReadingDraft, at: number): boolean =>
    at === 0 || clock.trim() !== '' || reading.trim() !== ''
  const wrongs = readings.flatMap((row, at) => {
    const why = isTold(row, at) ? wrongReading(row, at === 0) : null
    return why === null ? [] : [[at, why] as const]
  })
  if (counted.kind !== 'number' || wrongs.length > 0) {
    const said =
      counted.kind === 'nothing' ? METER_WORDS.noCount : METER_WORDS.wrongCount(count.trim())
    const wrong = {
      count: counted.kind === 'number' ? null : said,
      readings: Object.fromEntries(wrongs),
    }
    return { question: null, wrong }
  }
  const told = readings.filter(isTold).map(({ clock, reading }) => ({
    clockSec: valueOf(clockWritten(clock)) ?? 0,
    reading: valueOf(numberWritten(reading, METER)) ?? 0,
  }))
  const question = { count: counted.value, readings: told, ...(unit === '' ? {} : { unit }) }
  return { question, wrong: null }
}

function wrongReading({ clock, reading }: ReadingDraft, isStart: boolean): string | null {
  const [clockIs, readingIs] = [clockWritten(clock), numberWritten(reading, METER)]
  if (clockIs.kind === 'wrong') return METER_WORDS.wrongClock(clock.trim())
  if (readingIs.kind === 'wrong') return METER_WORDS.wrongReading(reading.trim())
  if (clockIs.kind === 'number' && readingIs.kind === 'number') return null
  return isStart ? METER_WORDS.noReading : METER_WORDS.half
}

/** The row for the reading after an answer: its clock as the answer asks for it. */
export function nextReading(readAgainSec: number | null): ReadingDraft {
  if (readAgainSec === null) return NO_READING
  const whole = Math.round(readAgainSec)
  return {
    clock: `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`,
    reading: '',
  }
}
