import fc from 'fast-check'
import { expect, test } from 'vitest'
import { classGrey, codeLimits, countCodes, sharesAt } from './classify.ts'
import { codeOfLeak, leakOfCode } from './leakCode.ts'

const leaks = fc.array(fc.double({ min: 2e-5, max: 1.2, noNaN: true }), {
  minLength: 1,
  maxLength: 200,
})
const dose = fc.record({
  skin: fc.double({ min: 1e-3, max: 0.4, noNaN: true }),
  holdOverSkin: fc.double({ min: 1, max: 3, noNaN: true }),
  fullOverHold: fc.double({ min: 1, max: 8, noNaN: true }),
})

test('invariant: a code keeps its leak to one part in 8000 and never turns the order round', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 2.2e-5, max: 1.4, noNaN: true }),
      fc.double({ min: 2.2e-5, max: 1.4, noNaN: true }),
      (a, b) => {
        expect(Math.abs(leakOfCode(codeOfLeak(a)) / a - 1)).toBeLessThanOrEqual(1 / 8000)
        if (a < b) expect(codeOfLeak(a)).toBeLessThanOrEqual(codeOfLeak(b))
      },
    ),
    { seed: 3 },
  )
  expect(leakOfCode(codeOfLeak(1))).toBe(1)
  expect(codeOfLeak(0)).toBe(0)
})

test('invariant: shares from the histogram are those of counting, and the picture says the same', () => {
  fc.assert(
    fc.property(leaks, dose, (values, { skin, holdOverSkin, fullOverHold }) => {
      const limits = { skin, hold: skin * holdOverSkin, full: skin * holdOverSkin * fullOverHold }
      const codes = Uint16Array.from(values, codeOfLeak)
      const counts = new Float64Array(65536)
      countCodes(counts, codes)
      const shares = sharesAt({ counts, total: codes.length }, limits)
      // leaks as the codes keep them, so that only the counting is in question
      const kept = [...codes].map(leakOfCode)
      const rounded = {
        skin: leakOfCode(codeOfLeak(skin)),
        full: leakOfCode(codeOfLeak(limits.full)),
      }
      expect(shares.open).toBeCloseTo(
        kept.filter((leak) => leak < rounded.skin).length / kept.length,
        12,
      )
      expect(shares.closed).toBeCloseTo(
        kept.filter((leak) => leak >= rounded.full).length / kept.length,
        12,
      )
      expect(shares.open + shares.inDoubt + shares.closed).toBeCloseTo(1, 12)
      expect(shares.veiled + shares.soft).toBeCloseTo(shares.inDoubt, 12)
      const grey = new Uint8Array(codes.length)
      classGrey(codes, codeLimits(limits), grey)
      expect(grey.filter((value) => value === 0).length / grey.length).toBeCloseTo(shares.open, 12)
      expect(grey.filter((value) => value === 255).length / grey.length).toBeCloseTo(
        shares.closed,
        12,
      )
    }),
    { seed: 6 },
  )
})
