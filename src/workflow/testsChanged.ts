import { normalShare } from '../core/calibration/belief/normal.ts'
import { type Belief, placeOf } from '../core/calibration/belief/state.ts'
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

const NUMBERS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
]

function counted(times: number, what: string): string {
  if (times === 0) return ''
  return `${NUMBERS[times] ?? times} ${what}${times === 1 ? '' : 's'}`
}

function listed(parts: readonly string[]): string {
  const said = parts.filter((part) => part !== '')
  return said.length < 2 ? said.join('') : `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`
}
