import { gradingParts } from '../core/calibration/belief/grades.ts'
import type { KnownReading, NoteLine, NoteProblem } from './notesRecords.ts'

/**
 * The lines that tell something new. Two tell the same when day, medium, dose and outcome are alike
 * and nothing that both name parts them; the later one is left out, and said to be.
 */
export function withoutDoubles(
  lines: readonly NoteLine[],
  known: readonly KnownReading[],
): Readonly<{ taken: readonly NoteLine[]; doubles: readonly NoteProblem[] }> {
  const seen = new Map<string, { told: Told; line: number | null }[]>()
  const remember = (told: Told, line: number | null): void => {
    const others = seen.get(keyOf(told))
    if (others === undefined) seen.set(keyOf(told), [{ told, line }])
    else others.push({ told, line })
  }
  for (const reading of known) remember(reading, null)
  const taken: NoteLine[] = []
  const doubles: NoteProblem[] = []
  for (const each of lines) {
    const told = toldBy(each)
    const before = seen.get(keyOf(told))?.find((other) => noneParts(other.told, told))
    if (before === undefined) {
      remember(told, each.line)
      taken.push(each)
    } else doubles.push({ line: each.line, message: doubleMessage(each.line, before.line) })
  }
  return { taken, doubles }
}

type Told = KnownReading

const PARTING = ['unit', 'fabric', 'batch', 'screen', 'film'] as const

function toldBy({ unit, fabric, batch, medium, ...line }: NoteLine): Told {
  return { ...line, medium: medium.id, unit: unit?.id, fabric: fabric?.id, batch: batch?.id }
}

function keyOf({ day, medium, doseCounts, grading }: Told): string {
  const { ground, marks } = gradingParts(grading)
  // A dose that went through light units and back is the same to six figures.
  return [day, medium, doseCounts.toPrecision(6), ground, marks].join('|')
}

function noneParts(one: Told, other: Told): boolean {
  return PARTING.every((key) => {
    const [here, there] = [one[key] ?? '', other[key] ?? '']
    return here === '' || there === '' || here === there
  })
}

function doubleMessage(line: number, before: number | null): string {
  return before === null
    ? `Line ${line}: the shop's memory has this screen already, so the line is left out.`
    : `Line ${line}: this is what line ${before} says, so it is left out. Were it two screens, tell them apart in a column 'screen'.`
}
