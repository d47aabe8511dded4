import { type AgedLight, ageingTrend, REPLACE_AT_SHARE } from '../core/light/ageing.ts'
import { hotLight } from '../core/light/hotLight.ts'
import { countAfter } from '../core/light/warmUp.ts'
import type { WarmUpFit, WarmUpUntold } from '../core/light/warmUpFit.ts'
import type { Doubtful } from '../core/units/quantity.ts'
import {
  type LampTime,
  type LampTiming,
  lampTime,
  newestTold,
  plainWords,
  type TimedDay,
  timedDays,
} from './lampTime.ts'
import type { CountsIn } from './lightRecords.ts'

export type LampAnswer = Readonly<{
  warmUp: Readonly<{
    hotPerSec: Doubtful
    coldPerSec: Doubtful
    tauSec: Doubtful
    curve: readonly Readonly<{ clockSec: number; count: number }>[]
  }> | null
  times: readonly LampTime[]
  ageing: Readonly<{
    points: readonly Readonly<{ lampHours: number; hotPerSec: number; low: number; high: number }>[]
    line: readonly Readonly<{ lampHours: number; value: number; low: number; high: number }>[]
    replaceAtHours: Doubtful | null
  }> | null
  sentences: readonly string[]
}>

const CURVE_POINTS = 60
const LINE_POINTS = 24
/** Normal deviate of a 90 % range. */
const NINETY_PERCENT = 1.645
const CAUTION =
  'Do not look at the lamp. One that was switched off hot may need minutes before it lights again: the unit’s manual says how long.'
/** What pairs are of: a lamp without a counter is timed with a meter. */
const READ: Readonly<Record<CountsIn, string>> = {
  'light units': 'counter',
  seconds: 'a meter’s sum',
}
const UNTOLD: Readonly<Record<WarmUpUntold, (read: string) => string>> = {
  'never from cold': (read) =>
    `Nobody has timed this lamp from cold yet: write down clock and ${read} from the switch on.`,
  'too few pairs': (read) =>
    `These are too few pairs: write down clock and ${read} six times or more from the switch on.`,
  'not long enough': () =>
    'The lamp was still warming up at the last pair: go on until the light comes evenly.',
  'no such law': () =>
    'These pairs are no warm-up that we know: look for a slip, or a lamp that flickers.',
}

/**
 * What timings tell of a lamp: its warm-up (of the newest that tells one), seconds for usual
 * counts, and its ageing.
 *
 * @param lamp timings in any order; usualCounts as on the counter. Where a unit counts plain
 * seconds, counts are readings that somebody summed with a light meter
 * @source warm-up, lamp-life
 */
export function lampAnswer({
  countsIn,
  timings,
  usualCounts,
}: Readonly<{
  countsIn: CountsIn
  timings: readonly LampTiming[]
  usualCounts: readonly number[]
}>): LampAnswer {
  const byDay = timedDays(timings)
  const newest = newestTold(byDay)
  const fit = newest?.fit ?? null
  const why = byDay[0]?.fit ?? 'never from cold'
  const times =
    fit === null ? [] : usualCounts.map((count) => lampTime(fit.warmUp, { count, countsIn }))
  const points = byDay.flatMap(agedLight)
  const ageing = ageingOf(points)
  return {
    warmUp: fit === null ? null : warmUpOf(fit, newest?.ofDay ?? []),
    times,
    ageing,
    sentences: [
      ...(fit === null && typeof why === 'string' ? [UNTOLD[why](READ[countsIn])] : []),
      ...(fit === null ? [] : aboutTimes(times, countsIn)),
      ...aboutAgeing(ageing, points),
      CAUTION,
    ],
  }
}

function warmUpOf(fit: WarmUpFit, ofDay: readonly LampTiming[]): LampAnswer['warmUp'] {
  const { warmUp, hotPerSec, coldPerSec, tauSec } = fit
  const from = ofDay.some((timing) => timing.from === 'cold') ? 'cold' : 'hot'
  const longest = Math.max(...ofDay.flatMap(({ pairs }) => pairs.map(({ clockSec }) => clockSec)))
  const curve = Array.from({ length: CURVE_POINTS + 1 }, (_, at) => {
    const clockSec = (at / CURVE_POINTS) * longest
    return { clockSec, count: countAfter(warmUp, { sec: clockSec, from }) }
  })
  return { hotPerSec, coldPerSec, tauSec, curve }
}

/** Of all usual counts, and of the middle one how wrong plain seconds would be. */
function aboutTimes(times: readonly LampTime[], countsIn: CountsIn): readonly string[] {
  const usual = times[Math.floor(times.length / 2)]
  if (usual === undefined) return []
  const all = (of: (time: LampTime) => number): string =>
    listed(times.map((time) => String(Math.round(of(time)))))
  const counts = all(({ count }) => count)
  const what =
    countsIn === 'seconds'
      ? `What a hot lamp gives in ${counts} seconds takes`
      : `${counts} light units take`
  const cold = all(({ coldSec }) => coldSec)
  const hot = all(({ hotSec }) => hotSec)
  return [`${what} ${cold} seconds from cold and ${hot} when hot.`, plainWords(usual, countsIn)]
}

/** `30, 45 and 60` */
function listed(parts: readonly string[]): string {
  const last = parts.at(-1) ?? ''
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`
}

/** The day's full light, where the lamp's hours were told: of the warm-up, or of hot runs alone. */
function agedLight({ ofDay, fit }: TimedDay): readonly AgedLight[] {
  const lampHours = ofDay.find((timing) => timing.lampHours !== null)?.lampHours ?? null
  if (lampHours === null) return []
  if (typeof fit !== 'string') {
    const { value, low, high } = fit.hotPerSec
    return [{ lampHours, hotPerSec: value, sd: (high - low) / 2 / NINETY_PERCENT }]
  }
  const hot = hotLight(ofDay.filter(({ from }) => from === 'hot'))
  return hot === null ? [] : [{ lampHours, ...hot }]
}

function ageingOf(points: readonly AgedLight[]): LampAnswer['ageing'] {
  const trend = ageingTrend(points)
  if (trend === null) return null
  const { replaceAtHours } = trend
  const last = Math.max(...points.map(({ lampHours }) => lampHours))
  const end = Math.max(1.2 * last, Math.min(3 * last, replaceAtHours?.value ?? 0))
  return {
    points: points
      .map(({ lampHours, hotPerSec, sd }) => ({
        lampHours,
        hotPerSec,
        low: hotPerSec - NINETY_PERCENT * sd,
        high: hotPerSec + NINETY_PERCENT * sd,
      }))
      .toSorted((a, b) => a.lampHours - b.lampHours),
    line: Array.from({ length: LINE_POINTS + 1 }, (_, at) => {
      const lampHours = (at / LINE_POINTS) * end
      const { value, low, high } = trend.at(lampHours)
      return { lampHours, value, low, high }
    }),
    replaceAtHours,
  }
}

function aboutAgeing(
  ageing: LampAnswer['ageing'],
  points: readonly AgedLight[],
): readonly string[] {
  if (ageing === null) {
    return points.length === 0
      ? []
      : ['Time the lamp from cold on three days some weeks apart, and its ageing can be told.']
  }
  const { replaceAtHours, line } = ageing
  const last = Math.max(...points.map(({ lampHours }) => lampHours))
  const [first] = line
  const now = line.find(({ lampHours }) => lampHours >= last)
  const lost = 1 - (now?.value ?? 1) / (first?.value ?? 1)
  if (replaceAtHours === null) return ['That the lamp loses light cannot be told yet.']
  const hours = (value: number): string => String(Math.round(value / 10) * 10)
  const { value, low, high } = replaceAtHours
  return [
    `The lamp has lost about ${Math.round(100 * lost)} % since it was new; at this pace it is down to ${Math.round(100 * REPLACE_AT_SHARE)} % at about ${hours(value)} hours, ${hours(low)} to ${hours(high)}.`,
  ]
}
