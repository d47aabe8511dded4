import { dot, type LinearFit, linearFit } from './linearFit.ts'

/** What a fit of a curve found. */
export type CurveFit = Readonly<{
  parameters: readonly number[]
  /** (JᵀJ)⁻¹ where it came to rest: the covariance where every residual has an sd of 1. */
  spread: readonly (readonly number[])[]
  /** Sum of the squared residuals. */
  squares: number
  /** Residuals beyond those that the parameters use up. */
  spare: number
}>

/** Residuals at some parameters: (model − value) over the value's sd, at least one a parameter. */
export type Residuals = (parameters: readonly number[]) => readonly number[]

const ROUNDS = 200
const LEAST_DAMPING = 1e-12
/** At rest when a whole step would lower the sum of squares by less than this part of it … */
const AT_REST = 1e-16
/** … or by less than this, once rounding lets no step lower it any more … */
const STUCK = 1e-10
/** … and would move no parameter by more than this part of it: on the way to infinity it would. */
const UNMOVED = 1e-4
/** With no noise there is no square left to compare with: then so little movement is rest. */
const NOISELESS = 1e-7
/** No step takes a parameter farther than so many times itself: far off, slopes mislead. */
const FARTHEST = 3
/** A parameter is told as part of itself, or of this where it is smaller. */
const SMALLEST = 1e-4
/** Half the step of a central difference, as part of the parameter: the cube root of one bit. */
const DIFFERENCE = 6e-6

/**
 * The parameters that make the sum of squares of the residuals least, from a start near enough.
 *
 * Levenberg and Marquardt: each step is the linear fit's, damped along every parameter by the
 * most that parameter ever did on the way (Moré); a step that helps lowers the damping, one that
 * does not raises it. The slopes are central differences.
 *
 * @returns null where it does not come to rest: the start is too far off, the parameters run away
 * towards a minimum at infinity, or the values do not tell them apart
 * @source levenberg-marquardt
 */
export function curveFit(residualsAt: Residuals, start: readonly number[]): CurveFit | null {
  let parameters = start
  let residuals = residualsAt(parameters)
  let squares = dot(residuals, residuals)
  if (!Number.isFinite(squares)) return null
  let damping = 1e-2
  let lengths = start.map(() => 0)
  for (let round = 0; round < ROUNDS; round += 1) {
    const slopes = slopesAt(residualsAt, parameters)
    const whole = linearFit(slopes, negative(residuals))
    const gain = whole === null ? Number.NaN : gainShare(whole, { slopes, squares })
    lengths = lengths.map((longest, at) => Math.max(longest, columnLength(slopes, at)))
    const better =
      gain <= AT_REST
        ? null
        : betterStep(residualsAt, { parameters, residuals, squares, slopes, damping, lengths })
    if (better === null) {
      const moved = whole === null ? Number.NaN : movedShare(whole, parameters)
      if (whole === null || !(moved <= UNMOVED)) return null
      if (!(gain <= STUCK || moved <= NOISELESS)) return null
      return { parameters, spread: whole.spread, squares, spare: whole.spare }
    }
    ;({ parameters, residuals, squares, damping } = better)
  }
  return null
}

type Place = Readonly<{
  parameters: readonly number[]
  residuals: readonly number[]
  squares: number
  damping: number
}>

/** Damps the step until it lowers the sum of squares; null when no step does. */
function betterStep(
  residualsAt: Residuals,
  {
    slopes,
    lengths,
    ...from
  }: Place & Readonly<{ slopes: readonly (readonly number[])[]; lengths: readonly number[] }>,
): Place | null {
  for (let damping = from.damping; damping < 1e20; damping *= 8) {
    const brakes = lengths.map((length, at) =>
      lengths.map((_, other) => (other === at ? Math.sqrt(damping) * length : 0)),
    )
    const values = [...negative(from.residuals), ...lengths.map(() => 0)]
    const step = linearFit([...slopes, ...brakes], values)
    if (step === null) return null
    if (movedShare(step, from.parameters) > FARTHEST) continue
    const parameters = from.parameters.map((value, at) => value + (step.coefficients[at] ?? 0))
    const residuals = residualsAt(parameters)
    const squares = dot(residuals, residuals)
    if (squares < from.squares) {
      const next = Math.max(LEAST_DAMPING, damping / 10)
      return { parameters, residuals, squares, damping: next }
    }
  }
  return null
}

function columnLength(rows: readonly (readonly number[])[], at: number): number {
  return Math.hypot(...rows.map((row) => row[at] ?? 0))
}

/** What a whole step would take off the sum of squares, as part of it. */
function gainShare(
  { coefficients: step }: LinearFit,
  { slopes, squares }: Readonly<{ slopes: readonly (readonly number[])[]; squares: number }>,
): number {
  if (squares === 0) return 0
  return slopes.reduce((sum, row) => sum + dot(row, step) ** 2, 0) / squares
}

/** How far a step moves that parameter which it moves farthest, as part of it. */
function movedShare({ coefficients: step }: LinearFit, parameters: readonly number[]): number {
  return Math.max(
    ...step.map((part, at) => Math.abs(part) / (Math.abs(parameters[at] ?? 0) + SMALLEST)),
  )
}

function slopesAt(residualsAt: Residuals, parameters: readonly number[]): number[][] {
  const columns = parameters.map((value, at) => {
    const half = DIFFERENCE * (Math.abs(value) + SMALLEST)
    const [above, below] = [value + half, value - half].map((moved) =>
      residualsAt(parameters.with(at, moved)),
    )
    return (above ?? []).map((residual, row) => (residual - (below?.[row] ?? 0)) / (2 * half))
  })
  return (columns[0] ?? []).map((_, row) => columns.map((column) => column[row] ?? 0))
}

function negative(values: readonly number[]): number[] {
  return values.map((value) => -value)
}
