import { expectIn } from '../units/range.ts'

/** How a share of the misregister is spread: a bell, evenly between two stops, or to one side alone. */
export type ShareShape = 'bell' | 'even' | 'one way'

/** One thing that moves a print out of register. */
export type RegisterShare = Readonly<{ name: string; sdMm: number; shape: ShareShape }>

export type RegisterBudget = Readonly<{
  /** Of all shares together. */
  sdMm: number
  /** What moves all prints alike: the given bias, and the means of shares that go one way. */
  biasMm: number
  /** Nineteen prints in twenty lie within so much of the place wanted. */
  trapMm: number
  /** The share that weighs most, and its part of the whole variance. */
  largest: Readonly<{ name: string; varianceShare: number }>
}>

/**
 * The usual shares of a print pulled by hand.
 *
 * @source register-shares
 */
export const USUAL_SHARES: readonly RegisterShare[] = [
  { name: 'scale of the films', sdMm: 0.1, shape: 'bell' },
  { name: 'placing the film', sdMm: 0.1, shape: 'bell' },
  { name: 'laying the sheet', sdMm: 0.15, shape: 'bell' },
  { name: 'paper', sdMm: 0.25, shape: 'bell' },
  { name: 'squeegee drag', sdMm: 0.1, shape: 'bell' },
  { name: 'off-contact', sdMm: 0.05, shape: 'bell' },
]

/** Of a bell, 0.95 lies within so many sd. */
const NINETEEN_IN_20 = 1.96
/** The mean of half a bell whose own sd is 1: √(2/π) / √(1 − 2/π). */
const MEAN_OF_ONE_WAY: number = Math.sqrt(2 / Math.PI) / Math.sqrt(1 - 2 / Math.PI)
const DRAWS = 20_000

/**
 * Register to be reckoned with: sd = √(Σ sd²), whatever the shapes; trap = 1.96 sd + bias where all
 * are bells, else drawn by chance.
 *
 * @param shares at least one; each sdMm 0 … 10
 * @param biasMm that all prints share, 0 or more
 * @param random 0 … 1, evenly; asked only where a shape is odd
 * @throws RangeError outside of these
 * @source root-sum-square, register-shares
 * @limits shares that do not hang together
 */
export function registerBudget(
  shares: readonly RegisterShare[],
  { biasMm = 0, random }: Readonly<{ biasMm?: number; random: () => number }>,
): RegisterBudget {
  const [first] = shares
  if (first === undefined) throw new RangeError('shares: expected at least 1, got 0')
  for (const { sdMm } of shares) expectIn(sdMm, { name: 'sdMm', low: 0, high: 10, unit: 'mm' })
  const variance = shares.reduce((sum, { sdMm }) => sum + sdMm ** 2, 0)
  const sdMm = Math.sqrt(variance)
  const oneWay = shares.filter(({ shape }) => shape === 'one way')
  const allBias = biasMm + oneWay.reduce((sum, share) => sum + share.sdMm * MEAN_OF_ONE_WAY, 0)
  const largest = shares.reduce((most, share) => (share.sdMm > most.sdMm ? share : most), first)
  return {
    sdMm,
    biasMm: allBias,
    trapMm: shares.every(({ shape }) => shape === 'bell')
      ? NINETEEN_IN_20 * sdMm + allBias
      : drawnWithinMm(shares, { biasMm, random, draws: DRAWS }),
    largest: {
      name: largest.name,
      varianceShare: variance === 0 ? 0 : largest.sdMm ** 2 / variance,
    },
  }
}

/**
 * By chance: within how much nineteen in twenty prints lie of the place wanted.
 *
 * @param draws prints that are drawn, 100 or more
 * @param random 0 … 1, evenly
 */
function drawnWithinMm(
  shares: readonly RegisterShare[],
  { biasMm, draws, random }: Readonly<{ biasMm: number; draws: number; random: () => number }>,
): number {
  const off = Float64Array.from({ length: draws }, () =>
    Math.abs(shares.reduce((sum, share) => sum + drawn(share, random), biasMm)),
  ).sort()
  return off[Math.ceil(0.95 * draws) - 1] ?? 0
}

function drawn({ sdMm, shape }: RegisterShare, random: () => number): number {
  switch (shape) {
    case 'bell':
      return sdMm * bell(random)
    case 'even':
      return sdMm * Math.sqrt(3) * (2 * random() - 1)
    case 'one way':
      return (sdMm * Math.abs(bell(random))) / Math.sqrt(1 - 2 / Math.PI)
  }
}

/** Box's and Muller's way from two even numbers to a bell. */
function bell(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}
