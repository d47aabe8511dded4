import { expect, test } from 'vitest'
import { replay } from '../../src/core/calibration/belief/replay.ts'
import { density, lu } from '../../src/core/units/quantity.ts'

test('ten thousand screens on one day, each with its own name, are learned from and leave a small belief', () => {
  const heap = Array.from({ length: 10_000 }, (_, at) => ({
    kind: 'outcome' as const,
    marks: { medium: at % 2 === 0 ? 'soft pencil' : 'drawing ink' },
    doseLu: lu(38 + (at % 9)),
    grade: at % 4 === 0 ? ('soft' as const) : ('good' as const),
    screen: `screen ${at}`,
    film: `film ${at}`,
    day: 20_000,
  }))
  const { belief } = replay(heap, { shop: { usualBaseDensity: density(0), secondsUnits: [] } })
  const size = belief.entries.length
  expect(size).toBeLessThan(210)
  for (let at = 0; at < size; at++) {
    expect(Number.isFinite(belief.gaussian.mean[at])).toBe(true)
    expect(belief.gaussian.cov[at * (size + 1)]).toBeGreaterThan(0)
  }
})
