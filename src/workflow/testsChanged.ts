import type { Evidence } from '../core/calibration/belief/evidence.ts'
import { normalShare } from '../core/calibration/belief/normal.ts'
import { type Belief, placeOf } from '../core/calibration/belief/state.ts'
import type { Doubtful } from '../core/units/quantity.ts'
import { smallNumber } from '../core/units/smallNumber.ts'
import type { LightExposure } from './lightRecords.ts'
import { doseWords } from './readingWords.ts'
import { groundOn } from './testsGround.ts'

type SetUp = Omit<LightExposure, 'subject'>

/** What moved, in words. */
export type Changed = Readonly<{ headline: string; sentence: string }>

/** So sure one must be that one bucket wants more light than the other. */
const SURE = 0.9

/**
 * Whether a new bucket is believed to want more or less light than the one before it, from what was
 * read of both; null where nobody can say.
 *
 * @param now the set-up with the new bucket; `before` the same with the old one
 */
export function bucketChanged(
  belief: Belief,
  now: SetUp,
  { before, day, since }: Readonly<{ before: SetUp; day: number; since: string }>,
): Changed | null {
  const [was, is] = [before, now].map(({ screen }) => {
    return placeOf(belief, { kind: 'batch', name: screen?.coating?.emulsion?.id ?? '' })
  }) as [number, number]
  const entry = belief.entries[is]
  if (was < 0 || entry === undefined) return null
  const { mean, cov } = belief.gaussian
  const size = mean.length
  const at = (row: number, column: number): number => cov[row * size + column] ?? 0
  const sd = Math.sqrt(at(was, was) + at(is, is) - 2 * at(was, is))
  const more = (mean[is] ?? 0) - (mean[was] ?? 0)
  if (normalShare(Math.abs(more) / sd) < SURE) return null
  const [old, fresh] = [before, now].map((each) => doseWords(groundOn(belief, each, { day }).value))
  if (old === fresh) return null
  const { wedge, strip, outcome } = entry.heard
  const seen = listed([
    counted(wedge.times, 'wedge'),
    counted(strip.times, 'strip'),
    counted(outcome.times, 'screen'),
  ])
  return {
    headline: `The new bucket wants ${more > 0 ? 'more' : 'less'} light.`,
    sentence: `Since ${since} the ground needs ${fresh}, not ${old}: seen on ${seen}.`,
  }
}

type At = Readonly<{ belief: Belief; exposure: SetUp; day: number }>

/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.645
/** Likely enough to be said, in careful words; judged. */
const LIKELY = 0.75

/**
 * What a new lamp wants beside the one before it, from what was read under it. What was believed
 * before and what is believed now are taken to be unsure each by itself: a little careful.
 *
 * @param before the belief in the evening before it was fitted
 * @param heard when it was fitted, and the kinds of the readings since
 */
export function lampChanged(
  before: At,
  now: At,
  { since, kinds }: Readonly<{ since: string; kinds: readonly Evidence['kind'][] }>,
): Changed {
  const [was, is] = [before, now].map(({ belief, exposure, day }) => {
    return groundOn(belief, exposure, { day })
  }) as [Doubtful, Doubtful]
  const sdOf = ({ low, high }: Doubtful): number => Math.log10(high / low) / (2 * NINETY_PERCENT)
  const sd = Math.hypot(sdOf(was), sdOf(is))
  const more = Math.log10(is.value / was.value)
  const chance = normalShare(Math.abs(more) / sd)
  const less = more > 0 ? 'more' : 'less'
  const headline =
    chance >= SURE
      ? `The new lamp wants ${less} light.`
      : chance >= LIKELY
        ? `The new lamp seems to want ${less} light.`
        : 'The new lamp hardly differs from the old one, as far as one can tell.'
  const times = (kind: Evidence['kind']): number => kinds.filter((each) => each === kind).length
  const seen = listed([
    counted(times('wedge'), 'wedge'),
    counted(times('strip'), 'strip'),
    counted(times('outcome'), 'screen'),
  ])
  const needs = `${doseWords(is.value)}, ${doseWords(is.low)} to ${doseWords(is.high)}`
  return {
    headline,
    sentence: `Since ${since} the ground needs ${needs}; before it was ${doseWords(was.value)}: seen on ${seen}.`,
  }
}

function counted(times: number, what: string): string {
  if (times === 0) return ''
  return `${smallNumber(times)} ${what}${times === 1 ? '' : 's'}`
}

function listed(parts: readonly string[]): string {
  const said = parts.filter((part) => part !== '')
  return said.length < 2 ? said.join('') : `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`
}
