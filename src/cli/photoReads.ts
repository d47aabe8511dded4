import { Failure } from '../core/failure.ts'
import type { Point } from '../core/inspection/homography.ts'
import { type Reads, shortened } from './reads.ts'
import { readTextFile } from './textFile.ts'

/** Two places in a photo, in its pixels: x,y,x,y. */
export function twoPoints(): Reads<readonly [Point, Point]> {
  return {
    shown: 'x,y,x,y',
    read: (text) => {
      const numbers = numbersIn(text.split(','))
      const [x = 0, y = 0, toX = 0, toY = 0] = numbers ?? []
      if (numbers?.length !== 4 || (x === toX && y === toY)) {
        throw wrong(
          `The wedge must be two places as four numbers of photo pixels, like 210,1480,1900,1500. You wrote '${shortened(text)}'.`,
        )
      }
      return [
        { x, y },
        { x: toX, y: toY },
      ]
    },
  }
}

/** Millimetres a sheet may have, a side. */
const SIDE_MM = { low: 10, high: 3000 }

/** Width and height: 210x297. */
export function sizeMm(): Reads<Readonly<{ widthMm: number; heightMm: number }>> {
  return {
    shown: 'WxH',
    read: (text) => {
      const numbers = numbersIn(text.split(/[x×]/i))
      const [widthMm = 0, heightMm = 0] = numbers ?? []
      const fits = (side: number): boolean => side >= SIDE_MM.low && side <= SIDE_MM.high
      if (numbers?.length !== 2 || !fits(widthMm) || !fits(heightMm)) {
        throw wrong(
          `The size must be width and height in mm, each ${SIDE_MM.low} to ${SIDE_MM.high}, like 210x297. You wrote '${shortened(text)}'.`,
        )
      }
      return { widthMm, heightMm }
    },
  }
}

/** As most wedges are made: half stops. */
const USUAL = '0.05:0.15:21'
const STEPS = { low: 3, high: 61 }
const MOST_DENSITY = 6
const MOST_BYTES = 100_000

/**
 * Densities of a wedge from its clear end, written out by a rule or listed in a file.
 *
 * @param text first:increment:count, or a file's path
 * @throws Failure 'wrong input', or as `readTextFile`
 */
export async function wedgeDensities(
  text: string = USUAL,
  field: string,
): Promise<readonly number[]> {
  const rule = text.split(':')
  const numbers = rule.length === 3 ? numbersIn(rule) : null
  if (numbers !== null) {
    const [first = 0, increment = 0, count = 0] = numbers
    if (Number.isInteger(count) && increment > 0 && count <= STEPS.high) {
      return checked(
        Array.from({ length: Math.max(0, count) }, (_, at) => first + increment * at),
        { text, field },
      )
    }
    throw wrong(words(text), field)
  }
  const list = await readTextFile(text, {
    what: 'list of densities',
    field,
    mostBytes: MOST_BYTES,
  })
  return checked(numbersIn(list.trim().split(/[\s,;]+/)) ?? [], {
    text,
    field,
  })
}

function checked(
  densities: readonly number[],
  { text, field }: Readonly<{ text: string; field: string }>,
): readonly number[] {
  const rising = densities.every((one, at) => at === 0 || one > (densities[at - 1] ?? one))
  const within = densities.every((one) => one >= 0 && one <= MOST_DENSITY)
  if (densities.length < STEPS.low || densities.length > STEPS.high || !rising || !within) {
    throw wrong(words(text), field)
  }
  return densities
}

function words(text: string): string {
  return `The wedge’s densities must be ${STEPS.low} to ${STEPS.high} rising numbers from 0 to ${MOST_DENSITY}: first:increment:count, like ${USUAL}, or a file with one after another. You wrote '${shortened(text)}'.`
}

function numbersIn(parts: readonly string[]): readonly number[] | null {
  const numbers = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)))
  return numbers.every((value) => Number.isFinite(value)) ? numbers : null
}

function wrong(message: string, field?: string): Failure {
  return new Failure('wrong input', message, field === undefined ? {} : { field })
}
