import type { PhotoAsk } from '../../api/photos.ts'
import type { Units } from '../signs/Ruler.tsx'
import {
  type Bounds,
  lengthEntry,
  lengthWritten,
  numberWritten,
  valueOf,
} from '../tests/written.ts'
import type { Corners, Ends } from './corners.ts'
import { PHOTO_WORDS } from './photoWords.ts'

/** What stands in the blanks, as it was written; empty is left open. */
export type PhotoBlanks = Readonly<{
  width: string
  height: string
  /** Whether there is one, shown by hand. */
  wedge: 'none' | 'here'
  first: string
  increment: string
  steps: string
}>

/** The usual wedge of the trade: 21 steps of 0.15 from clear film at 0.05. */
export const OPEN_BLANKS: PhotoBlanks = {
  width: '',
  height: '',
  wedge: 'none',
  first: '0.05',
  increment: '0.15',
  steps: '21',
}

const LIMITS: Readonly<Record<NumberBlank, Bounds>> = {
  first: { low: 0, high: 1 },
  increment: { low: 0.02, high: 0.5 },
  steps: { low: 2, high: 61, whole: true },
}
const LENGTH_MM: Bounds = { low: 10, high: 3000 }

type LengthBlank = 'width' | 'height'
type NumberBlank = 'first' | 'increment' | 'steps'

/** What is wrong with a length, in a sentence; null for a good or an open one. */
export function wrongLength(name: LengthBlank, written: string, units: Units): string | null {
  if (lengthWritten(written, LENGTH_MM, units).kind !== 'wrong') return null
  return PHOTO_WORDS.wrongLength(PHOTO_WORDS.size[name], written)
}

/** The same of a wedge's number, which may not be open. */
export function wrongNumber(name: NumberBlank, written: string): string | null {
  const { low, high } = LIMITS[name]
  if (numberWritten(written, LIMITS[name]).kind === 'number') return null
  const label = PHOTO_WORDS.wedge[`${name}Label`]
  return PHOTO_WORDS.wrongNumber(label, String(low), String(high), written)
}

/**
 * The question that corners and blanks ask; null while something in them is wrong.
 *
 * @param corners null: they are looked for
 */
export function photoAskOf(
  blanks: PhotoBlanks,
  { corners, ends, units }: Readonly<{ corners: Corners | null; ends: Ends | null; units: Units }>,
): PhotoAsk | null {
  const { width, height, wedge } = blanks
  if (wrongLength('width', width, units) ?? wrongLength('height', height, units)) return null
  const [widthMm, heightMm] = [width, height].map((written) =>
    valueOf(lengthWritten(written, LENGTH_MM, units)),
  )
  const isSized = typeof widthMm === 'number' && typeof heightMm === 'number'
  const [firstDensity, increment, steps] = (['first', 'increment', 'steps'] as const).map((name) =>
    valueOf(numberWritten(blanks[name], LIMITS[name])),
  )
  const isHere = wedge === 'here' && ends !== null
  const isWedge =
    typeof firstDensity === 'number' && typeof increment === 'number' && typeof steps === 'number'
  if (isHere && !isWedge) return null
  return {
    ...(corners === null ? {} : { corners: [...corners] }),
    ...(isSized ? { sizeMm: { widthMm, heightMm } } : {}),
    ...(isHere && isWedge
      ? { wedge: [...ends], wedgeDensities: { firstDensity, increment, steps } }
      : {}),
  }
}

/** The blanks as they were filled when it was asked before. */
export function blanksOf(asked: PhotoAsk | null, units: Units): Partial<PhotoBlanks> {
  const { sizeMm, wedge, wedgeDensities } = asked ?? {}
  return {
    wedge: wedge === undefined ? 'none' : 'here',
    ...(sizeMm === undefined
      ? {}
      : { width: lengthEntry(sizeMm.widthMm, units), height: lengthEntry(sizeMm.heightMm, units) }),
    ...(wedgeDensities === undefined
      ? {}
      : {
          first: String(wedgeDensities.firstDensity),
          increment: String(wedgeDensities.increment),
          steps: String(wedgeDensities.steps),
        }),
  }
}
