import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { localLevel } from './localLevel.ts'

/** Annual flow of the Nile at Aswan 1871-1970, 10^8 m^3. */
const NILE: readonly number[] = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180,
  799, 958, 1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701,
  916, 692, 1020, 1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862,
  698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812,
  742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906,
  901, 1170, 912, 746, 919, 718, 714, 740,
]

/** Level predicted for the year after so many years, and its variance. */
const PREDICTED = [
  [2, 1140.9278, 9368.836],
  [3, 1072.7985, 7250.57],
  [10, 1162.9026, 5520.384],
  [50, 849.0706, 5501.258],
  [100, 798.3703, 5501.258],
] as const

/** From the first year on, which it takes for the level, as nothing is known before. */
const filtered = (variance: number, wandered: number): ReturnType<typeof localLevel> =>
  localLevel(
    NILE.slice(1).map((value) => ({ value, variance, wandered })),
    { level: NILE[0], variance },
  )

test('oracle nile-level: level and variance after 2, 3, 10, 50 and 100 years', () => {
  expect(NILE.reduce((sum, flow) => sum + flow, 0)).toBe(91935)
  const { points } = filtered(15099, 1469.1)
  for (const [years, level, variance] of PREDICTED) {
    near(points[years - 2].level, level, { within: 5.1e-5, because: 'printed with four digits' })
    near(points[years - 2].variance + 1469.1, variance, {
      within: 5.1e-4,
      because: 'printed with three digits',
    })
  }
  const { expected, expectedVariance } = points[49 - 1]
  near(expected, points[48 - 1].level, { within: 1e-9, because: 'a walk stays where it is' })
  near(expectedVariance, 5501.258, { within: 5.1e-4, because: 'settled long ago' })
})

test('oracle nile-level: the likelihood is greatest at the variances that are published', () => {
  const best = filtered(15098.5, 1469.2).logLikelihood
  near(best, -632.5456, { within: 5.1e-5, because: 'printed with four digits' })
  // The greatest of all is a place where every way out goes down.
  for (const [observation, level] of [
    [1.02, 1],
    [0.98, 1],
    [1, 1.1],
    [1, 0.9],
    [1.02, 0.9],
    [0.98, 1.1],
  ] as const) {
    expect(filtered(15098.5 * observation, 1469.2 * level).logLikelihood).toBeLessThan(best)
  }
})

test('looks of different sharpness count by their variances', () => {
  const { points } = localLevel(
    [
      { value: 3, variance: 1, wandered: 0 },
      { value: 0, variance: 0.5, wandered: 0 },
    ],
    { level: 0, variance: 1e12 },
  )
  near(points[1].level, 1, { within: 1e-9, because: 'a third of three' })
  near(points[1].variance, 1 / 3, { within: 1e-9, because: 'one and two' })
})
