import { density } from '../../units/quantity.ts'
import type { Circumstances, Evidence } from '../belief/evidence.ts'
import { loosened, projected, type Row } from '../belief/gaussian.ts'
import { JUMP } from '../belief/priors.ts'
import { type Belief, SHARED, without } from '../belief/state.ts'
import { touched } from '../belief/touch.ts'
import { taughtBy } from '../belief/update.ts'

/** What readings say of the ground by themselves: log10 of the hold dose of their set-up, lu. */
export type GroundSaid = Readonly<{ value: number; sd: number }>

/** Marks that may be anything: then how they came out says nothing of the ground. */
const ANY_MARKS = { density: density(2), densitySd: density(2) } as const
/** A belief that keeps more than this of its variance has not been told anything. */
const HARDLY_TOLD = 0.95

/**
 * What one reading says of its set-up's hold dose by itself.
 *
 * The belief is loosened by as much as a jump, taught, and what it knew before is taken out again:
 * of two normal curves the quotient is one. The screen's own scatter is part of the sd. How marks
 * came out is left aside: that is about their medium.
 *
 * @returns null where it tells next to nothing of the ground
 * @throws RangeError where a number of the reading cannot be
 * @source drift-witness, moment-matching
 */
export function groundWitness(belief: Belief, reading: Evidence): GroundSaid | null {
  const looser = { at: SHARED.hold, variance: JUMP.sd ** 2 }
  const known = withoutOneOffs(belief)
  const open: Belief = { ...known, gaussian: loosened(known.gaussian, [looser]) }
  const before = holdOf(open, reading)
  const taught = taughtBy(open, ofGround(reading))
  const after = holdOf(taught.belief, reading)
  if (after.variance > HARDLY_TOLD * before.variance) return null
  const told = 1 / after.variance - 1 / before.variance
  const value = (after.mean / after.variance - before.mean / before.variance) / told
  return { value, sd: Math.sqrt(1 / told) }
}

/** The belief without the screens and films that it has heard of. */
export function withoutOneOffs(belief: Belief): Belief {
  return without(belief, ({ kind }) => kind === 'screen' || kind === 'film' || kind === 'read film')
}

/**
 * A set-up's hold and sound dose as sums of the belief's numbers, without a screen's scatter.
 *
 * @returns the belief with the entries they need, those it had at their old places, no screens
 */
export function groundRows(
  belief: Belief,
  circumstances: Circumstances,
): Readonly<{ belief: Belief; hold: Row; sound: Row }> {
  const own = { ...circumstances, screen: undefined, film: undefined }
  const touch = touched(withoutOneOffs(belief), own)
  const setUp = (row: Row): Row => {
    const kept = row.at.flatMap((place, i) =>
      touch.belief.entries[place]?.kind === 'screen' ? [] : [i],
    )
    return {
      at: kept.map((i) => row.at[i] ?? 0),
      times: kept.map((i) => row.times[i] ?? 0),
      offset: row.offset,
    }
  }
  // An exposure's own screen is the last of its entries: without it the others stay in place.
  const known = withoutOneOffs(touch.belief)
  return { belief: known, hold: setUp(touch.hold), sound: setUp(touch.sound) }
}

function holdOf(
  belief: Belief,
  circumstances: Circumstances,
): Readonly<{ mean: number; variance: number }> {
  const { belief: known, hold } = groundRows(belief, circumstances)
  const { mean, cov } = projected(known.gaussian, [hold])
  return { mean: mean[0] ?? 0, variance: cov[0] ?? 0 }
}

function ofGround(reading: Evidence): Evidence {
  const alone = { ...reading, screen: undefined, film: undefined }
  return alone.kind === 'wedge' ? alone : { ...alone, marks: ANY_MARKS }
}
