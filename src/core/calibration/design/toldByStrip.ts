import { factorOf, type Gaussian } from '../belief/gaussian.ts'
import { EYE } from '../belief/likelihood.ts'
import { quickNormalQuantile } from '../belief/normal.ts'

const POINTS = 2048
/** Hold, sound, fog limit; where an eye draws each of these lines. */
const AXES = 6
/** Square roots of primes: their multiples fill a cube evenly. */
const ROOTS: readonly number[] = [2, 3, 5, 7, 11, 13].map(Math.sqrt)
/** Standard normal numbers that fill their space evenly, one point after another. */
const LATTICE: Float64Array = Float64Array.from({ length: POINTS * AXES }, (_, at) => {
  const along = ((Math.floor(at / AXES) + 1) * (ROOTS[at % AXES] ?? 0)) % 1
  return quickNormalQuantile(Math.abs(2 * along - 1))
})

/**
 * What a strip leaves open of its own three thresholds, on average over all that may come out:
 * E Var(z | grades).
 *
 * Shops that lie evenly over the belief are graded band by band; those with the same grades cannot
 * be told apart, so their scatter about their own middle is what stays. Slips of the pen are left
 * out.
 *
 * @param before hold, sound, fog limit of the strip's own screen and film, log10 lu
 * @param bands log10 of their doses
 * @source strip-design, grade-likelihood
 */
export function leftOpenByStrip(before: Gaussian, bands: readonly number[]): Float64Array {
  const factor = factorOf(before.cov, 3)
  const cells = new Map<string, { count: number; sum: Float64Array }>()
  const squares = new Float64Array(9)
  const z = new Float64Array(3)
  for (let point = 0; point < POINTS; point++) {
    const from = point * AXES
    for (let i = 0; i < 3; i++) {
      z[i] = 0
      for (let j = 0; j <= i; j++) {
        z[i] = (z[i] ?? 0) + (factor[3 * i + j] ?? 0) * (LATTICE[from + j] ?? 0)
      }
    }
    const line = (i: number, eye: number): number =>
      (before.mean[i] ?? 0) + (z[i] ?? 0) + eye * (LATTICE[from + 3 + i] ?? 0)
    const grades = gradesOf(bands, {
      hold: line(0, EYE.ground),
      sound: line(1, EYE.ground),
      fog: line(2, EYE.marks),
    })
    const cell = cells.get(grades) ?? { count: 0, sum: new Float64Array(3) }
    cells.set(grades, cell)
    cell.count++
    for (let i = 0; i < 3; i++) {
      cell.sum[i] = (cell.sum[i] ?? 0) + (z[i] ?? 0)
      for (let j = 0; j < 3; j++) {
        squares[3 * i + j] = (squares[3 * i + j] ?? 0) + (z[i] ?? 0) * (z[j] ?? 0)
      }
    }
  }
  for (const { count, sum } of cells.values()) {
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        squares[3 * i + j] = (squares[3 * i + j] ?? 0) - ((sum[i] ?? 0) * (sum[j] ?? 0)) / count
      }
    }
  }
  // Each cell's middle is taken from its own points: so many fewer are free.
  return squares.map((square) => square / Math.max(1, POINTS - cells.size))
}

/** The word for each band, as one letter; more light never washes off what less light held. */
function gradesOf(
  bands: readonly number[],
  { hold, sound, fog }: Readonly<{ hold: number; sound: number; fog: number }>,
): string {
  let grades = ''
  for (const x of bands) {
    if (x < hold) grades += 'w'
    else if (x > fog + EYE.filling) grades += 'F'
    else if (x > fog) grades += 'f'
    else grades += x < sound ? 's' : 'g'
  }
  return grades
}
