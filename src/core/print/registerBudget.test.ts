import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { type RegisterShare, registerBudget, USUAL_SHARES } from './registerBudget.ts'

/** A generator of its own, so that ours is not its own witness: products modulo a Mersenne prime. */
function lehmer(seed: number): () => number {
  let state = BigInt(seed)
  return () => {
    state = (state * 48_271n) % 2_147_483_647n
    return Number(state) / 2_147_483_647
  }
}

/** A bell by twelve even numbers: not the way of the code. */
function bellOfTwelve(random: () => number): number {
  let sum = -6
  for (let at = 0; at < 12; at++) sum += random()
  return sum
}

function drawnPrints(shares: readonly RegisterShare[], biasMm: number): readonly number[] {
  const random = lehmer(99)
  const one = ({ sdMm, shape }: RegisterShare): number => {
    if (shape === 'bell') return sdMm * bellOfTwelve(random)
    if (shape === 'even') return sdMm * Math.sqrt(12) * (random() - 0.5)
    return (sdMm * Math.abs(bellOfTwelve(random))) / Math.sqrt(1 - 2 / Math.PI)
  }
  return Array.from({ length: 40_000 }, () =>
    shares.reduce((sum, share) => sum + one(share), biasMm),
  )
}

const sdOf = (all: readonly number[]): number => {
  const mean = all.reduce((sum, each) => sum + each, 0) / all.length
  return Math.sqrt(all.reduce((sum, each) => sum + (each - mean) ** 2, 0) / all.length)
}
const within = (all: readonly number[]): number =>
  all.map(Math.abs).sort((a, b) => a - b)[Math.ceil(0.95 * all.length) - 1] ?? 0

test('oracle register-shares: the usual shares come to 0.34 mm, and paper weighs most', () => {
  const budget = registerBudget(USUAL_SHARES, { random: lehmer(3) })
  near(budget.sdMm, 0.34, { within: 0.005, because: 'given to two decimals' })
  expect(budget.largest.name).toBe('paper')
  near(budget.largest.varianceShare, 0.0625 / 0.1175, { within: 1e-9, because: 'by hand' })
  near(budget.trapMm, 1.96 * Math.sqrt(0.1175), { within: 1e-9, because: 'bells alone' })
})

test.each([
  ['bells', ['bell', 'bell', 'bell'], 0.12],
  ['a sheet that slides between stops', ['bell', 'even', 'bell'], 0],
  ['paper that only grows', ['one way', 'bell', 'even'], 0.2],
] as const)(
  'oracle root-sum-square: %s, by prints drawn at random, within 2 %',
  (_, shapes, bias) => {
    const sds = [0.31, 0.22, 0.09]
    const shares = shapes.map((shape, at) => ({ name: `${at}`, sdMm: sds[at] ?? 0, shape }))
    const budget = registerBudget(shares, { biasMm: bias, random: lehmer(12) })
    const prints = drawnPrints(shares, bias)
    near(budget.sdMm, sdOf(prints), { within: 0.02 * budget.sdMm, because: '40,000 prints' })
    const mean = prints.reduce((sum, each) => sum + each, 0) / prints.length
    near(budget.biasMm, mean, { within: 0.01, because: '40,000 prints' })
    if (bias === 0 || shapes.some((shape) => shape !== 'bell')) {
      near(budget.trapMm, within(prints), {
        within: 0.02 * budget.trapMm,
        because: '40,000 prints',
      })
    } else {
      // with a bias both ways are not alike: 1.96 sd + bias is on the safe side
      expect(budget.trapMm).toBeGreaterThanOrEqual(within(prints))
    }
  },
)

test('invariant: a share more never makes the register better, and no share is refused', () => {
  const sd = fc.double({ min: 0, max: 2, noNaN: true })
  fc.assert(
    fc.property(fc.array(sd, { minLength: 1, maxLength: 6 }), sd, (sds, more) => {
      const shares = sds.map((sdMm) => ({ name: 'x', sdMm, shape: 'bell' }) as const)
      const [first, second] = [shares, [...shares, { name: 'y', sdMm: more, shape: 'bell' }]].map(
        (each) => registerBudget(each as RegisterShare[], { random: () => 0.5 }),
      )
      expect(second?.sdMm ?? 0).toBeGreaterThanOrEqual((first?.sdMm ?? 0) - 1e-12)
    }),
    { seed: 5, numRuns: 50 },
  )
  expect(() => registerBudget([], { random: () => 0.5 })).toThrow('at least 1')
})
