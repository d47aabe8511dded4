import { describe, expect, test } from 'vitest'
import { driftTerms, termsWithAStep } from '../../src/core/calibration/drift/terms.testing.ts'

const alarmed = (terms: ReturnType<typeof driftTerms>): number =>
  terms.filter(({ drift }) => drift.alarms.length > 0).length / terms.length
const STILL = { what: 'nothing', week: 0, steps: 0 } as const
const likeliest = ({ alarms }: ReturnType<typeof driftTerms>[number]['drift']) =>
  alarms.toSorted((a, b) => b.chance - a.chance)[0]
/** Share of 1,000 draws is known to so much, three sd. */
const NOISE = 3 * Math.sqrt((0.06 * 0.94) / 1000)

test('of two lamps and two fabrics in turn a new bucket that wants another dose is the one that is named', () => {
  for (const [steps, least] of [
    [1, 0.85],
    [2, 0.95],
    [-2, 0.95],
  ] as const) {
    const change = { what: 'bucket', week: 3, steps } as const
    const crossed = { units: 2, fabrics: 2, wedgesAWeek: 4, bucketWeek: 3, weeks: 8 }
    const terms = driftTerms({ shops: 120, seed: 31, change, ...crossed })
    const named = terms.filter(({ drift }) => {
      return likeliest(drift)?.kind === 'bucket' && likeliest(drift)?.name === 'bucket 1'
    })
    process.stdout.write(`${steps} steps: the bucket named in ${named.length} of 120 terms\n`)
    expect(named.length / terms.length).toBeGreaterThan(least - 3 * Math.sqrt(0.05 / 120))
  }
})

describe.each([
  ['both ends of a wedge written down', true, { falseAlarms: 0.06, found: 0.82 }],
  ['the last solid step alone', false, { falseAlarms: 0.08, found: 0.68 }],
])('%s', (name, clearStep, share) => {
  test('in 1,000 terms in which nothing moves there are six to eight false alarms in a hundred', () => {
    const still = alarmed(
      driftTerms({ shops: 1000, seed: 11, change: STILL, weeks: 14, clearStep }),
    )
    const wandering = alarmed(
      driftTerms({ shops: 300, seed: 12, change: STILL, weeks: 14, clearStep, walks: true }),
    )
    process.stdout.write(`${name}: false alarms ${still}, where the ground wanders ${wandering}\n`)
    expect(still).toBeLessThan(share.falseAlarms + NOISE)
    // It wanders by half a step in a term: then alarms are seldom false, and never more than a third.
    expect(wandering).toBeLessThan(0.33)
  })

  test('in 1,000 terms a step of drift is found in eight weekly wedges, whenever it comes', () => {
    const found = termsWithAStep({ shops: 143, seed: 13, clearStep }).map((terms) => alarmed(terms))
    const mean = found.reduce((sum, share) => sum + share / found.length, 0)
    const weeks = found.map((share) => share.toFixed(2)).join(' ')
    process.stdout.write(`${name}: found ${mean.toFixed(3)}; by the week it came in ${weeks}\n`)
    expect(mean).toBeGreaterThan(share.found)
    // Right after the reference it may as well be the reference that is off.
    expect(Math.min(...found)).toBeGreaterThan(0.5)
  })
})
