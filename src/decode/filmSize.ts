import { Failure } from '../core/failure.ts'
import { isIn, rangeWords } from '../core/units/range.ts'
import type { Resolution } from '../formats/resolution.ts'
import { RESOLUTION_DPI, SAME_RESOLUTION_SHARE } from './filmLimits.ts'
import { named } from './named.ts'

const MM_PER_INCH = 25.4
const UM_PER_INCH = 25400

/** What programs write when they know no resolution. */
const HABIT_DPI = [72, 96]

/**
 * The side of a film's pixels: by the resolution given, else by what its file states.
 *
 * @param givenDpi in range, as an option gave it
 * @throws Failure with field resolutionDpi where neither says it, or the file's cannot be meant
 */
export function pixelSize(
  path: string,
  { stated, givenDpi }: Readonly<{ stated: Resolution | null; givenDpi: number | undefined }>,
): Readonly<{ pixelUm: number; warnings: readonly string[] }> {
  const dpi = stated === null ? null : dpiOf(stated)
  if (givenDpi !== undefined) {
    const sides = dpi === null ? [] : [dpi.horizontal, dpi.vertical]
    const differs = sides.some((side) => !same(side, givenDpi))
    const used = `the ${round(givenDpi)} dpi given are used`
    const warning = `${named(path)} states ${words(dpi)}; ${used}.`
    return { pixelUm: UM_PER_INCH / givenDpi, warnings: differs ? [warning] : [] }
  }
  if (dpi === null) {
    throw noSize(`${named(path)} does not state its resolution; give it with --resolution-dpi.`)
  }
  if (!same(dpi.horizontal, dpi.vertical)) {
    const what = `${named(path)} has pixels that are not square (${words(dpi)})`
    throw noSize(
      `${what}; save it with one resolution, or give the true one with --resolution-dpi.`,
    )
  }
  const fileDpi = Math.sqrt(dpi.horizontal * dpi.vertical)
  if (!isIn(fileDpi, RESOLUTION_DPI)) {
    const what = `${named(path)} states ${words(dpi)}, and a film has ${rangeWords(RESOLUTION_DPI)}`
    throw noSize(`${what}; give the true resolution with --resolution-dpi.`)
  }
  const habit = HABIT_DPI.some((of) => same(of, fileDpi))
  const warning =
    `${named(path)} states ${words(dpi)}, which programs write when they do not know; ` +
    'check the size, or give the true resolution with --resolution-dpi.'
  return { pixelUm: UM_PER_INCH / fileDpi, warnings: habit ? [warning] : [] }
}

type Dpi = Readonly<{ horizontal: number; vertical: number }>

function dpiOf({ horizontalPerMm, verticalPerMm }: Resolution): Dpi {
  return { horizontal: horizontalPerMm * MM_PER_INCH, vertical: verticalPerMm * MM_PER_INCH }
}

function same(one: number, other: number): boolean {
  return Math.abs(one / other - 1) <= SAME_RESOLUTION_SHARE
}

function words(dpi: Dpi | null): string {
  if (dpi === null) return 'no resolution'
  const { horizontal, vertical } = dpi
  return horizontal === vertical
    ? `${round(horizontal)} dpi`
    : `${round(horizontal)} x ${round(vertical)} dpi`
}

function round(dpi: number): string {
  return String(Number(dpi.toPrecision(6)))
}

function noSize(message: string): Failure {
  return new Failure('wrong input', message, { field: 'resolutionDpi' })
}
