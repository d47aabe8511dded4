import { expect, test } from 'vitest'
import { demichelWeights } from '../../core/colour/inkMixing.ts'
import { xyz50FromLab } from '../../core/colour/lab.ts'
import type { Lab } from '../../core/colour/space.ts'
import { srgbFromXyz50 } from '../../core/colour/srgb.ts'
import { estimatedPrimaries } from '../../core/separation/primaries.ts'
import { near } from '../../core/units/near.testing.ts'
import { filmStages } from './filmStages.ts'

const INKS = [
  { name: 'ochre', lab: [70, 12, 60] as Lab, opacity: 0.3, angleDeg: null },
  { name: 'teal', lab: [40, -28, -10] as Lab, opacity: 0.75, angleDeg: null },
  { name: 'black', lab: [16, 0, 1] as Lab, opacity: 0.95, angleDeg: null },
]
/** Tones of five places, a plate a row. */
const TONES = [
  [0, 255, 100, 31, 204],
  [0, 0, 57, 255, 143],
  [0, 0, 21, 64, 255],
]
const plates = INKS.map(({ lab, opacity }, at) => ({
  lab,
  opacity,
  tones: Uint8Array.from(TONES[at] ?? []),
}))

test('oracle neugebauer: the last stage is the sum over all combinations by their chances', () => {
  const print = filmStages(plates, { places: 5, paper: null }).at(-1)
  const primaries = estimatedPrimaries(INKS)
  for (let place = 0; place < 5; place++) {
    const weights = demichelWeights(TONES.map((row) => (row[place] ?? 0) / 255))
    const sum = [0, 1, 2].map((channel) =>
      primaries.reduce((all, xyz, at) => all + (weights[at] ?? 0) * (xyz[channel] ?? 0), 0),
    ) as unknown as Lab
    srgbFromXyz50(sum).forEach((value, channel) => {
      const level = print?.[4 * place + channel] ?? -1
      near(level, 255 * value, { within: 1.2, because: 'rounded to a level, twice' })
    })
  }
})

test('before any is rolled back films lie over bare paper: clear stays paper, black lets little through', () => {
  const [first, second] = filmStages(plates, { places: 5, paper: [95, 0, 6] })
  const paper = srgbFromXyz50(xyz50FromLab([95, 0, 6])).map((value) => Math.round(255 * value))
  expect([...(first?.subarray(0, 3) ?? [])]).toEqual(paper)
  expect(first?.[4] ?? 255).toBeLessThan(90)
  // the second place has ochre alone: with its film rolled back it shows the ink
  expect(second?.[4] ?? 0).toBeGreaterThan(150)
  expect(second?.[6] ?? 255).toBeLessThan(100)
})
