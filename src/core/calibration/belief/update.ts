import {
  type Band,
  type Evidence,
  expectEvidence,
  type Marks,
  outcomeBand,
  type WedgeEvidence,
} from './evidence.ts'
import { carried, type Gaussian, projected, type Row } from './gaussian.ts'
import type { Grading } from './grades.ts'
import { bandsLikelihood, LAPSE, wedgeLikelihood } from './likelihood.ts'
import { type Belief, crowdThinned, type Entry, isOneOff, SHARED, without } from './state.ts'
import { type Touched, touched } from './touch.ts'
import { type Weighed, weigh } from './weigh.ts'
import { weighPatch } from './weighPatch.ts'

/** A belief after one reading, and how likely that reading was before it was made. */
export type Learned = Readonly<{ belief: Belief; logChance: number }>

/**
 * One reading taken in.
 *
 * It touches at most three numbers of its exposure. Their joint belief, screen and film included,
 * is weighed on a grid by how likely they make the reading; what that does to them is carried to
 * all entries by regression. A screen or a film that nobody named is forgotten again.
 *
 * @param evidence of the belief's own day: walk the belief there first
 * @throws RangeError where a number of the evidence cannot be
 * @source moment-matching, grade-likelihood, wedge-noise
 */
export function taughtBy(belief: Belief, evidence: Evidence): Learned {
  expectEvidence(evidence)
  const touch = touched(belief, evidence, marksOf(evidence))
  const rows = rowsOf(evidence, touch)
  const before = projected(touch.belief.gaussian, rows)
  const { after, logChance } = weighed(before, evidence)
  const isMine = touch.belief.gaussian !== belief.gaussian
  const gaussian = carried(touch.belief.gaussian, rows, { before, after, isMine })
  const entries = heardBy(touch, evidence)
  const taught = without({ ...touch.belief, entries, gaussian }, ({ kind, name }) =>
    isOneOff(kind, name),
  )
  return { belief: crowdThinned(taught), logChance }
}

/** The marks that evidence tells of; a wedge has none. */
export function marksOf(evidence: Evidence): readonly Marks[] {
  return evidence.kind === 'wedge' ? [] : [evidence.marks]
}

function rowsOf(evidence: Evidence, { hold, skin, sound, fog }: Touched): readonly Row[] {
  if (evidence.kind !== 'wedge') return [hold, sound, ...fog]
  return evidence.firstClearStep === undefined ? [hold] : [hold, skin]
}

function weighed(before: Gaussian, evidence: Evidence): Weighed {
  switch (evidence.kind) {
    case 'wedge': {
      const likelihood = wedgeLikelihood({ ...evidence, x: Math.log10(evidence.doseLu) })
      return weigh(before, likelihood, { start: wedgeStart(evidence, before) })
    }
    case 'strip': {
      const bands = evidence.bands.map(graded)
      return weigh(before, bandsLikelihood(bands, { lapse: LAPSE.strip }))
    }
    case 'outcome':
      return weighPatch(before, { ...graded(outcomeBand(evidence)), lapse: LAPSE.outcome })
  }
}

function graded(band: Band): Readonly<{ x: number; grading: Grading }> {
  return { x: Math.log10(band.doseLu), grading: band }
}

/**
 * A wedge says nearly outright what its two numbers are, however far off the belief was: the grid
 * begins where a Gaussian reading of the two steps would put them.
 */
function wedgeStart(evidence: WedgeEvidence, before: Gaussian): Gaussian {
  const { wedge, lastSolidStep, firstClearStep } = evidence
  const x = Math.log10(evidence.doseLu) - wedge.firstDensity
  const passed =
    firstClearStep === undefined ? [lastSolidStep] : [lastSolidStep, firstClearStep - 1]
  if (passed.some((steps) => steps <= 0 || steps >= wedge.steps)) return before
  // The step passed and half a step on; noise of half a step, and a step's even spread.
  const variance = wedge.increment ** 2 * (0.25 + 1 / 12)
  const size = passed.length
  let start = before
  passed.forEach((steps, i) => {
    const spread = start.cov[i * (size + 1)] ?? 0
    const row = { at: [i], times: [1], offset: 0 }
    const read = x - wedge.increment * (steps - 0.5)
    const gain = spread / (spread + variance)
    const mean = (start.mean[i] ?? 0) + gain * (read - (start.mean[i] ?? 0))
    start = carried(start, [row], {
      before: projected(start, [row]),
      after: { mean: Float64Array.of(mean), cov: Float64Array.of(spread * (1 - gain)) },
    })
  })
  return start
}

function heardBy({ belief, places }: Touched, evidence: Evidence): readonly Entry[] {
  const entries = [...belief.entries]
  const lastDay = evidence.day ?? null
  for (const at of [SHARED.hold, ...places]) {
    const entry = entries[at]
    if (entry === undefined) continue
    const { times, lastDay: before } = entry.heard[evidence.kind]
    const heard = { times: times + 1, lastDay: lastDay ?? before }
    entries[at] = { ...entry, heard: { ...entry.heard, [evidence.kind]: heard } }
  }
  return entries
}
