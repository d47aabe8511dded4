import fc from 'fast-check'
import FFT from 'fft.js'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { contrastSensitivity, cyclesPerDegree } from './contrastSensitivity.ts'
import { dotStrength, fabricStrength, OPENING_PER_PITCH } from './gratings.ts'
import { type Beat, moire, type Overlay } from './moire.ts'

const overlay = (
  threadsPerCm: number,
  rulingPerCm: number,
  angleDeg: number,
  meshAngleDeg = 0,
): Overlay => ({ threadsPerCm, rulingPerCm, angleDeg, meshAngleDeg, viewingMm: 300 })

const beatOf = (of: Overlay, order: Beat['order']): Beat => {
  const found = moire(of).beats.find((beat) => beat.order.join() === order.join())
  if (found === undefined) throw new Error(`no beat ${order.join()}`)
  return found
}

test('oracle amidror2000: 40 lines a cm along a fabric of 150 beat 4 × 40 − 150 = 10 a cm', () => {
  const beat = beatOf(overlay(150, 40, 0), [4, 0, 1, 0])
  near(beat.perCm, 10, { within: 1e-9, because: 'a difference of whole numbers' })
  near(beat.periodMm ?? 0, 1, { within: 1e-9, because: '10 mm over 10' })
  expect(moire(overlay(150, 40, 0)).verdict).toBe('strong')
})

test('oracle amidror2000: 60 against 60 at 7.5° is 2 × 60 sin 3.75° = 7.8484 a cm', () => {
  near(beatOf(overlay(60, 60, 7.5), [1, 0, 1, 0]).perCm, 7.8484, {
    within: 5e-5,
    because: 'four decimals',
  })
  near(beatOf(overlay(66, 60, 0), [1, 0, 1, 0]).perCm, 6, { within: 1e-9, because: '66 − 60' })
})

test('a beat of zero has no period, and stretching may still bring it out', () => {
  const beat = beatOf(overlay(160, 40, 30, 30), [4, 0, 1, 0])
  expect(beat).toMatchObject({ perCm: 0, periodMm: null })
  expect(beat.visibility).toBeGreaterThan(0.005)
})

test.each([
  [0, 0.04992],
  [1, 0.31596],
  [4, 0.810528],
  [20, 0.502681],
  [60, 0.004476],
])('oracle mannos1974: at %d cycles a degree %d of a peak of 0.98088', (f, value) => {
  near(0.98088 * contrastSensitivity(f), value, { within: 2e-6, because: 'six decimals' })
})

test('oracle mannos1974: 45 lines an inch at 300 mm are 9.277 cycles a degree', () => {
  const seen = cyclesPerDegree(45 / 2.54, { viewingMm: 300 })
  // tan 1° × 300 mm × 1.7717 a mm = 9.2774
  near(seen, 9.277, { within: 1e-3, because: 'three decimals' })
})

/** A square picture of whole numbers of waves: dots of half a tone times openings of the fabric. */
const SIDE = 512
const WAVES = { dots: [17, 7], threads: 60 } as const

function picture(toneShare: number): Float64Array {
  const [a, b] = WAVES.dots
  const radius = Math.sqrt(toneShare / Math.PI)
  const fine = 5
  const threads = Float64Array.from({ length: SIDE }, (_, x) => opened(x))
  const values = new Float64Array(SIDE * SIDE)
  for (let y = 0; y < SIDE; y++) {
    for (let x = 0; x < SIDE; x++) {
      let inked = 0
      for (let part = 0; part < fine * fine; part++) {
        const fx = (x + ((part % fine) + 0.5) / fine) / SIDE
        const fy = (y + (Math.floor(part / fine) + 0.5) / fine) / SIDE
        const u = a * fx + b * fy
        const v = -b * fx + a * fy
        if (Math.hypot(u - Math.round(u), v - Math.round(v)) < radius) inked += 1
      }
      values[y * SIDE + x] =
        ((inked / fine ** 2) * threads[x] * threads[y]) / OPENING_PER_PITCH ** 2
    }
  }
  return values
}

/** The open part of a pixel's width. */
function opened(x: number): number {
  const fine = 64
  const phase = (at: number): number => (WAVES.threads * (x + (at + 0.5) / fine)) / SIDE
  const open = Array.from({ length: fine }, (_, at) => phase(at) - Math.round(phase(at)))
  return open.filter((u) => Math.abs(u) < OPENING_PER_PITCH / 2).length / fine
}

/** Amplitudes by wave numbers, −256 … 255 either way. */
function amplitudes(values: Float64Array): (p: number, q: number) => number {
  const fft = new FFT(SIDE)
  const rows = Array.from({ length: SIDE }, (_, y) => {
    const out = fft.createComplexArray()
    fft.transform(out, fft.toComplexArray([...values.subarray(y * SIDE, (y + 1) * SIDE)], null))
    return out
  })
  const columns = Array.from({ length: SIDE }, (_, p) => {
    const column = fft.createComplexArray()
    rows.forEach((row, y) => {
      column[2 * y] = row[2 * p]
      column[2 * y + 1] = row[2 * p + 1]
    })
    const out = fft.createComplexArray()
    fft.transform(out, column)
    return out
  })
  return (p, q) => {
    const [column, row] = [(p + SIDE) % SIDE, (q + SIDE) % SIDE]
    return Math.hypot(columns[column][2 * row], columns[column][2 * row + 1]) / SIDE ** 2
  }
}

test('oracle fourier-gratings: a Fourier transform of dots times openings peaks at the beats, as strongly', () => {
  const [a, b] = WAVES.dots
  // x to the right and y down: an angle counter-clockwise is that of (a, −b)
  const cm = 3
  const laid = overlay(
    WAVES.threads / cm,
    Math.hypot(a, b) / cm,
    (Math.atan2(-b, a) * 180) / Math.PI,
  )
  const toneShare = 0.3
  const at = amplitudes(picture(toneShare))
  const strong = moire(laid).beats.filter(({ order: [i, j, k, l] }) => {
    return Math.abs(i) + Math.abs(j) <= 2 && Math.abs(k) + Math.abs(l) === 1
  })
  expect(strong.length).toBe(24)
  for (const { order, perCm, angleDeg } of strong) {
    const [i, j, k, l] = order
    const [p, q] = [
      Math.round(cm * perCm * Math.cos((angleDeg * Math.PI) / 180)),
      -Math.round(cm * perCm * Math.sin((angleDeg * Math.PI) / 180)),
    ]
    near(Math.hypot(p, q) / cm, perCm, { within: 1e-6, because: 'whole waves in the picture' })
    const isPeak = [-1, 0, 1].every((dx) =>
      [-1, 0, 1].every((dy) => (dx === 0 && dy === 0) || at(p + dx, q + dy) < 0.2 * at(p, q)),
    )
    const most = dotStrength(i, j) * fabricStrength(k, l)
    expect(at(p, q), order.join()).toBeLessThan(1.05 * most)
    if (Math.abs(i) + Math.abs(j) === 1) {
      expect(isPeak, order.join()).toBe(true)
      // r J1(2π r) is greatest at r = 0.383, a tone of 46 %; at 30 % it is 0.9 of that
      near(at(p, q) / most, 0.9, { within: 0.06, because: 'pixels blur edges, and fold a little' })
    }
  }
})

test('invariant: the advice is never worse, and is what it says when asked itself', () => {
  const asking = fc.record({
    threadsPerCm: fc.integer({ min: 30, max: 180 }),
    rulingPerCm: fc.double({ min: 8, max: 60, noNaN: true }),
    angleDeg: fc.integer({ min: -90, max: 180 }),
    meshAngleDeg: fc.constantFrom(0, 7.5, 22.5),
    viewingMm: fc.constantFrom(250, 300, 1000),
  })
  fc.assert(
    fc.property(asking, (asked) => {
      const { beats, advice } = moire(asked)
      const taken = moire({ ...asked, ...advice }).beats
      const sum = (of: readonly Beat[]): number =>
        of.reduce((all, { visibility }) => all + visibility, 0)
      const lowest = (of: readonly Beat[]): number => Math.min(...of.map(({ perCm }) => perCm))
      expect(taken[0].visibility).toBeLessThanOrEqual(beats[0].visibility)
      near(taken[0].visibility, advice.visibility, { within: 1e-12, because: 'the same sum' })
      expect(sum(taken)).toBeLessThanOrEqual(sum(beats) + 1e-12)
      expect(lowest(taken)).toBeGreaterThanOrEqual(lowest(beats) - 1e-9)
    }),
    { numRuns: 6 },
  )
})

test('the usual 22.5° on 90 threads shows nothing, 45° with 24 lines on 77 does', () => {
  expect(moire(overlay(90, 18, 22.5))).toMatchObject({
    verdict: 'none to be seen',
    advice: { angleDeg: 22.5, rulingPerCm: 18 },
  })
  const { verdict, beats, advice } = moire(overlay(77, 24, 45))
  expect(verdict).toBe('strong')
  expect(advice.visibility).toBeLessThan(0.5 * beats[0].visibility)
  expect(beats.length).toBe(160)
})

test('what cannot be is refused', () => {
  expect(() => moire(overlay(90, 0, 45))).toThrow('rulingPerCm: expected 2 to 120')
  expect(() => moire(overlay(90, 18, Number.NaN))).toThrow('angleDeg')
  expect(() => moire({ ...overlay(90, 18, 0), viewingMm: 0 })).toThrow('viewingMm')
})
