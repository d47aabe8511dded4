import fc from 'fast-check'
import FFT from 'fft.js'
import { expect, test } from 'vitest'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { SOLID } from '../../core/halftone/solid.ts'
import { near } from '../../core/units/near.testing.ts'
import { type Screen, screenOf, solidScreen } from './screen.ts'

const PIXEL_UM = 25_400 / 720

/** A flat tint as zeros and ones; a screen may be had once and used again. */
function tint(
  halftone: Halftone | Screen,
  share: number,
  { wide = 512, high = 512, pixelUm = PIXEL_UM } = {},
) {
  const screen = 'kind' in halftone ? screenOf(halftone, { pixelUm }) : halftone
  const tones = new Uint16Array(wide).fill(Math.round(share * SOLID))
  const bits = new Uint8Array(Math.ceil(wide / 8))
  const values = new Uint8Array(wide * high)
  for (let y = 0; y < high; y++) {
    screen.row(y, tones, bits)
    for (let x = 0; x < wide; x++) values[y * wide + x] = (bits[x >> 3] >> (7 - (x & 7))) & 1
  }
  return values
}

const mean = (values: Uint8Array): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length

const dot = (
  rulingPerCm: number,
  angleDeg: number,
  shape: 'round' | 'elliptical' | 'line' = 'round',
): Halftone => ({ kind: 'dot', shape, rulingPerCm, angleDeg })

/** Energy of waves (p, q) per picture, windowed so that no edge counts. */
function strongestWave(values: Uint8Array, side: number) {
  const fft = new FFT(side)
  const window = Float64Array.from(
    { length: side },
    (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / side),
  )
  const average = mean(values)
  const rows = Array.from({ length: side }, (_, y) => {
    const row = Array.from(
      { length: side },
      (_, x) => (values[y * side + x] - average) * window[x] * window[y],
    )
    const out = fft.createComplexArray()
    fft.transform(out, fft.toComplexArray(row, null))
    return out
  })
  let best = { energy: 0, p: 0, q: 0 }
  for (let p = 0; p <= side / 2; p++) {
    const column = fft.createComplexArray()
    rows.forEach((row, y) => {
      column[2 * y] = row[2 * p]
      column[2 * y + 1] = row[2 * p + 1]
    })
    const out = fft.createComplexArray()
    fft.transform(out, column)
    for (let q = 0; q < side; q++) {
      const energy = out[2 * q] ** 2 + out[2 * q + 1] ** 2
      if (energy > best.energy) best = { energy, p, q: q < side / 2 ? q : q - side }
    }
  }
  return best
}

test.each([
  [18, 22.5],
  [24, 52.5],
  [20, 0],
  [15, 75],
  [30, 45],
])(
  'oracle fourier-gratings: %d lines a cm at %d° peak there in a Fourier transform',
  (...asked) => {
    const [rulingPerCm, angleDeg] = asked
    const side = 512
    const { p, q } = strongestWave(tint(dot(rulingPerCm, angleDeg), 0.4), side)
    const perCm = 10_000 / PIXEL_UM / side
    near(Math.hypot(p, q) * perCm, rulingPerCm, { within: 0.75 * perCm, because: 'whole waves' })
    // y runs down, and the screen repeats every quarter turn
    const seen = (Math.atan2(-q, p) * 180) / Math.PI
    const off = (((seen - angleDeg) % 90) + 135) % 90
    near(off, 45, { within: 50 / Math.hypot(p, q), because: 'a wave beside, seen from the middle' })
  },
)

test('lines run along their angle, counter-clockwise', () => {
  const { p, q } = strongestWave(tint(dot(16, 30, 'line'), 0.5), 512)
  const normal = ((Math.atan2(-q, p) * 180) / Math.PI + 180) % 180
  near(normal, 120, { within: 1.5, because: 'across the lines, a wave beside' })
})

test.each(['round', 'elliptical', 'line'] as const)(
  'invariant: a flat tint of %s dots covers what was asked, to a grey level over many cells',
  (shape) => {
    const rulings = fc.integer({ min: 60, max: 300 }).map((tenths) => tenths / 10)
    const angles = fc.constantFrom(0, 7.5, 15, 22.5, 30, 45, 52.5, 75, 90, 18.4349)
    const shares = fc.integer({ min: 1, max: 254 })
    fc.assert(
      fc.property(rulings, angles, shares, (rulingPerCm, angleDeg, level) => {
        // A window of whole pixels ends within a cell: the larger it is, the less that weighs.
        const side = Math.ceil((24 * 10_000) / rulingPerCm / PIXEL_UM)
        const share = level / 255
        const got = mean(tint(dot(rulingPerCm, angleDeg, shape), share, { wide: side, high: side }))
        expect(Math.abs(got - share) * 255, `${rulingPerCm} ${angleDeg} ${share}`).toBeLessThan(1)
      }),
      { numRuns: 4 },
    )
  },
)

test('cells of whole pixels at 0° keep every tone too', () => {
  const pixelUm = 62.5 // 16 a mm
  for (let level = 0; level <= 255; level += 51) {
    const got = mean(tint(dot(10, 0), level / 255, { wide: 160, high: 160, pixelUm }))
    near(got, level / 255, { within: 1 / 255, because: 'a grey level over ten by ten cells' })
  }
})

const scattered = screenOf({ kind: 'stochastic', seed: 7 }, { pixelUm: PIXEL_UM })

test('nothing is nothing and solid is solid, in every screen', () => {
  for (const halftone of [dot(18, 22.5), dot(10, 0), scattered]) {
    expect(mean(tint(halftone, 0, { wide: 203, high: 60 }))).toBe(0)
    expect(mean(tint(halftone, 1, { wide: 203, high: 60 }))).toBe(1)
  }
})

test('a stochastic tint covers what was asked within 0.2 %, and repeats by its seed alone', () => {
  for (const share of [0.013, 0.2, 0.5, 0.77, 0.99]) {
    const got = mean(tint(scattered, share, { wide: 300, high: 290 }))
    near(got, share, { within: 0.002, because: 'the contract' })
  }
  const drawn = (halftone: Halftone | Screen): string =>
    tint(halftone, 0.3, { wide: 130, high: 130 }).join('')
  expect(drawn({ kind: 'stochastic', seed: 7 })).toBe(drawn(scattered))
  expect(drawn({ kind: 'stochastic', seed: 8 })).not.toBe(drawn(scattered))
})

test('larger stochastic dots are squares of whole pixels', () => {
  const wide = 512
  const large = { kind: 'stochastic', seed: 3, dotUm: 3 * PIXEL_UM } as const
  const values = tint(large, 0.4, { wide, high: 3 })
  for (let at = 0; at < 510; at += 3) {
    const corners = [at, at + 1, at + wide, at + 2 * wide + 2]
    expect(new Set(corners.map((corner) => values[corner])).size).toBe(1)
  }
})

test('without a halftone half a tone decides', () => {
  const bits = new Uint8Array(2)
  solidScreen().row(0, Uint16Array.of(0, 32_767, 32_768, 65_535, 1, 2, 3, 4, 65_535), bits)
  expect([...bits]).toEqual([0b0011_0000, 0b1000_0000])
})
