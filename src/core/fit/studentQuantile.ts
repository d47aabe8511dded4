import { expectIn, type Range } from '../units/range.ts'

const CHANCE: Range = { name: 'chance', low: 1e-9, high: 1 - 1e-9, unit: '' }
const FREEDOM: Range = { name: 'freedom', low: 1, high: 100_000, unit: '', whole: true }

/**
 * Student's t: the value that t with some degrees of freedom stays under with the given chance.
 *
 * @param chance above 0, below 1; the half width of a 90 % interval is that of 0.95
 * @param freedom degrees of freedom, whole, 1 or more
 * @throws RangeError outside these ranges
 * @source student-t
 */
export function studentQuantile(chance: number, freedom: number): number {
  expectIn(chance, CHANCE)
  expectIn(freedom, FREEDOM)
  if (chance < 0.5) return -studentQuantile(1 - chance, freedom)
  // tan turns the whole line into a quarter turn, over which the share rises evenly enough to halve.
  let [low, high] = [0, Math.PI / 2]
  for (let round = 0; round < 60; round += 1) {
    const middle = (low + high) / 2
    if (studentShare(middle, freedom) < chance) low = middle
    else high = middle
  }
  return Math.sqrt(freedom) * Math.tan((low + high) / 2)
}

/**
 * Share of Student's t below √freedom · tan θ, for θ from 0 to a quarter turn.
 *
 * For whole degrees of freedom the integral of cosⁿ⁻¹ is a finite sum.
 *
 * @source abramowitz-stegun (26.7.3 and 26.7.4)
 */
function studentShare(theta: number, freedom: number): number {
  const [sine, cosine] = [Math.sin(theta), Math.cos(theta)]
  const odd = freedom % 2 === 1
  let term = odd ? cosine : 1
  let sum = freedom === 1 ? 0 : term
  for (let step = odd ? 3 : 2; step < freedom; step += 2) {
    term *= ((step - 1) / step) * cosine ** 2
    sum += term
  }
  return 0.5 + (odd ? (theta + sine * sum) / Math.PI : (sine * sum) / 2)
}
