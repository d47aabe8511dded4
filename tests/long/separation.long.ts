import { describe, expect, test } from 'vitest'
import {
  STOCKS,
  separationQuality,
  withinTenPercent,
} from '../../src/core/separation/quality.testing.ts'
import { TEST_PICTURES } from '../../src/core/separation/testPictures.testing.ts'

const STEPS = { three: 20, four: 10, six: 4 } as const

describe.each(Object.entries(STOCKS))('%s inks', (name, inks) => {
  test.each(TEST_PICTURES)(
    'oracle neugebauer: $name prints as near as the best mixture on a grid, within 10 %',
    (picture) => {
      const steps = STEPS[name as keyof typeof STEPS]
      const quality = separationQuality(picture, { inks, side: 16, steps })
      expect(withinTenPercent(quality), JSON.stringify(quality)).toBe(true)
    },
  )
})
