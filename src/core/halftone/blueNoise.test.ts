import FFT from 'fft.js'
import { expect, test } from 'vitest'
import { blueNoise, MASK_SIDE } from './blueNoise.ts'
import { SOLID } from './solid.ts'

const mask = blueNoise({ seed: 7 })

/** Mean energy of waves in a ring of wave numbers, against that of white noise of the same tone. */
function energyOf(share: number, [from, to]: readonly [number, number]): number {
  const side = MASK_SIDE
  const fft = new FFT(side)
  const rows = Array.from({ length: side }, (_, y) => {
    const row = Array.from(mask.subarray(y * side, (y + 1) * side), (threshold) =>
      threshold < share * SOLID ? 1 - share : -share,
    )
    const out = fft.createComplexArray()
    fft.transform(out, fft.toComplexArray(row, null))
    return out
  })
  let [sum, count] = [0, 0]
  for (let p = 0; p < side; p++) {
    const column = fft.createComplexArray()
    rows.forEach((row, y) => {
      column[2 * y] = row[2 * p]
      column[2 * y + 1] = row[2 * p + 1]
    })
    const out = fft.createComplexArray()
    fft.transform(out, column)
    for (let q = 0; q < side; q++) {
      const wave = Math.hypot(p < side / 2 ? p : p - side, q < side / 2 ? q : q - side) / side
      if (wave < from || wave >= to) continue
      sum += out[2 * q] ** 2 + out[2 * q + 1] ** 2
      count += 1
    }
  }
  return sum / count / (side ** 2 * share * (1 - share))
}

test('every threshold is met equally often', () => {
  const sorted = mask.toSorted()
  expect(new Set(sorted).size).toBe(MASK_SIDE ** 2)
  const off = sorted.map((threshold, at) =>
    Math.abs(threshold - ((at + 0.5) * SOLID) / MASK_SIDE ** 2),
  )
  expect(Math.max(...off)).toBeLessThanOrEqual(1)
})

test.each([0.05, 0.1, 0.25])(
  'oracle ulichney1993: at %d hardly any energy lies below the principal wave',
  (share) => {
    // the principal wave number is √g: dots as far apart as they can be
    const principal = Math.sqrt(share)
    expect(energyOf(share, [1 / MASK_SIDE, 0.6 * principal])).toBeLessThan(0.2)
    expect(energyOf(share, [0.9 * principal, 1.2 * principal])).toBeGreaterThan(0.8)
  },
)

test('a seed that is none is refused', () => {
  expect(() => blueNoise({ seed: -1 })).toThrow('seed: expected a whole number from 0')
  expect(() => blueNoise({ seed: 1.5 })).toThrow('seed')
})
