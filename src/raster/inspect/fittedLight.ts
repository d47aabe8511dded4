import { leastSquares } from './leastSquares.ts'
import { GAIN_TERMS, type LightField, lightTerms, termCount } from './lightField.ts'

/** Places on the film with the light that the photo shows there. */
export type Seen = Readonly<{
  u: Float64Array
  v: Float64Array
  share: Float64Array
  value: Float64Array
}>

/** A number for each place. */
export type Misfits = Float64Array

/** Numbers of the light that fits best: ground, and gain (zeros without). */
export function fittedLight(
  { u, v, share, value }: Seen,
  {
    degree,
    withGain,
    weights,
  }: Readonly<{ degree: 2 | 3; withGain: boolean; weights: Misfits | null }>,
): Float64Array | null {
  const terms = termCount(degree)
  const smooth = new Float64Array(terms)
  const row = new Float64Array(withGain ? 2 * terms : terms)
  const sums = leastSquares(row.length)
  for (let at = 0; at < value.length; at += 1) {
    lightTerms(degree, u[at], v[at], smooth)
    row.set(smooth)
    if (withGain) for (let k = 0; k < terms; k += 1) row[terms + k] = share[at] * smooth[k]
    sums.add(row, value[at], weights?.[at] ?? 1)
  }
  for (let k = 0; k < row.length; k += 1) sums.hold(k, { towards: 0, weight: 1e-6 * value.length })
  const answer = sums.solve()
  if (answer === null) return null
  const numbers = new Float64Array(2 * terms)
  numbers.set(answer)
  return numbers
}

export function misfitsOf(
  { u, v, share, value }: Seen,
  light: Float64Array,
  degree: 2 | 3,
): Misfits {
  const smooth = new Float64Array(termCount(degree))
  return value.map((seen, at) => {
    lightTerms(degree, u[at], v[at], smooth)
    return seen - modelled(light, smooth, share[at])
  })
}

export function sumOfSquares(list: Misfits): number {
  let sum = 0
  for (let at = 0; at < list.length; at += 1) sum += list[at] * list[at]
  return sum
}

/** Light of the polynomials at a place: `light` holds ground numbers, then gain numbers. */
export function modelled(light: Float64Array, smooth: Float64Array, share: number): number {
  const terms = smooth.length
  let sum = 0
  for (let k = 0; k < terms; k += 1) sum += (light[k] + share * light[terms + k]) * smooth[k]
  return sum
}

/** Ground darker than this share of an open place's light says nothing about it (judged). */
const FOLLOWS_FROM = 0.03
/** How firmly the gain is held to follow the ground, a cell. */
const GAIN_HOLD = 0.01

/** The light field by the polynomials' ground, its gain fitted again so that it can be carried on. */
export function lightOf(
  { u, v, share, value }: Seen,
  {
    degree,
    numbers,
    weights,
  }: Readonly<{ degree: 2 | 3; numbers: Float64Array; weights: Misfits }>,
): LightField | null {
  const terms = termCount(degree)
  const smooth = new Float64Array(terms)
  const grounds = value.map((_, at) => {
    lightTerms(degree, u[at], v[at], smooth)
    let ground = 0
    for (let k = 0; k < terms; k += 1) ground += numbers[k] * smooth[k]
    return ground
  })
  const meanGround = grounds.reduce((sum, ground) => sum + ground, 0) / grounds.length
  const follows =
    grounds.every((ground) => ground > 0.2 * meanGround) &&
    meanGround > FOLLOWS_FROM * numbers[terms]
      ? 1
      : 0
  const sums = leastSquares(GAIN_TERMS)
  const row = new Float64Array(GAIN_TERMS)
  let told = 0
  for (let at = 0; at < value.length; at += 1) {
    const base = share[at] * (follows === 1 ? grounds[at] / meanGround : 1)
    row[0] = base
    row[1] = base * u[at]
    row[2] = base * v[at]
    row[3] = base * (u[at] * u[at] + v[at] * v[at])
    sums.add(row, value[at] - grounds[at], weights[at])
    told += share[at] * share[at]
  }
  for (let k = 1; k < GAIN_TERMS; k += 1) sums.hold(k, { towards: 0, weight: GAIN_HOLD * told })
  const gain = sums.solve()
  if (gain === null || !(gain[0] > 0)) return null
  return {
    degree,
    ground: numbers.slice(0, terms),
    follows,
    gain: follows === 1 ? gain.map((value) => value / meanGround) : gain,
  }
}
