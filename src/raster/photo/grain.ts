import type { Sheet } from './photoLight.ts'
import type { StepLight } from './wedgeSteps.ts'

/** Standard deviation of a pixel's light, by its light. */
export type Grain = (light: number) => number

const BLOCK = 5
/** Bins of log10 light, from 1 down to 10^-4. */
const BINS = 24
const PER_DECADE = 6
/** Of the blocks of a light the quietest fifth is even film; chi-squared says what it stands for. */
const QUIET = { share: 0.2, of: 0.76 }
/** Fewer blocks tell nothing of their light. */
const LEAST_BLOCKS = 12

/**
 * The photo's own grain (noise, what compression left, steps of 8 bits) by light: from the quietest
 * small blocks of each light, but never more than the steps of a wedge show, or, without a wedge,
 * than light as it comes in quanta would have by the grain of the clear film. A drawing has texture
 * everywhere, which is no noise.
 *
 * @param steps of a wedge in the same photo, from the clear end; none where there is none
 */
export function grainOf(
  sheet: Sheet,
  { clearLight, steps }: Readonly<{ clearLight: number; steps: readonly StepLight[] }>,
): Grain {
  const quiet = interpolated(quietest(sheet))
  const ofWedge = interpolated(
    steps.map(({ light, grain }) => ({ log: logOf(light), sd: grain })).sort(brightestFirst),
  )
  const clear = quiet(clearLight)
  return (light) => {
    const most =
      steps.length > 0
        ? ofWedge(light)
        : MARGIN * clear * Math.sqrt(Math.min(1, light / clearLight))
    return Math.max(FLOOR, Math.min(quiet(light), most))
  }
}

/** For what a camera adds to the noise of light itself (judged). */
const MARGIN = 1.5

type Known = Readonly<{ log: number; sd: number }>

function brightestFirst(one: Known, other: Known): number {
  return other.log - one.log
}

function logOf(light: number): number {
  return Math.log10(Math.max(1e-5, light))
}

/** Standard deviations of the quietest blocks, the brightest first. */
function quietest(sheet: Sheet): readonly Known[] {
  const bins: number[][] = Array.from({ length: BINS }, () => [])
  const every = Math.max(BLOCK, Math.round(Math.sqrt((sheet.widthPx * sheet.heightPx) / 60_000)))
  for (let y = 0; y + BLOCK <= sheet.heightPx; y += every) {
    for (let x = 0; x + BLOCK <= sheet.widthPx; x += every) {
      const { light, variance } = block(sheet, x, y)
      if (light > 0) bins[binOf(light)]?.push(variance)
    }
  }
  return bins.flatMap((variances, bin) => {
    if (variances.length < LEAST_BLOCKS) return []
    const sorted = variances.sort((a, b) => a - b)
    const quiet = sorted[Math.floor(QUIET.share * sorted.length)] ?? 0
    return [{ log: -bin / PER_DECADE, sd: Math.sqrt(quiet / QUIET.of) }]
  })
}

/** Between two known lights along a line, beyond them as the last. */
function interpolated(known: readonly Known[]): Grain {
  return (light) => {
    const log = logOf(light)
    const before = known.findLast((one) => one.log >= log) ?? known[0]
    const after = known.find((one) => one.log <= log) ?? known.at(-1)
    if (before === undefined || after === undefined) return FLOOR
    const share = after.log === before.log ? 0 : (before.log - log) / (before.log - after.log)
    return before.sd + share * (after.sd - before.sd)
  }
}

/** A step of eight bits in the dark is 1/3300; its rounding. */
const FLOOR = 0.00009

function binOf(light: number): number {
  return Math.min(BINS - 1, Math.max(0, Math.round(-PER_DECADE * Math.log10(light))))
}

function block(
  { widthPx, values }: Sheet,
  left: number,
  top: number,
): Readonly<{ light: number; variance: number }> {
  let [sum, squares] = [0, 0]
  for (let y = top; y < top + BLOCK; y += 1) {
    for (let x = left; x < left + BLOCK; x += 1) {
      const light = values[y * widthPx + x]
      sum += light
      squares += light * light
    }
  }
  const n = BLOCK * BLOCK
  const light = sum / n
  return {
    light,
    variance: Math.max(0, squares - n * light * light) / (n - 1),
  }
}
