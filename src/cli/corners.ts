import { Failure } from '../core/failure.ts'
import type { Corner } from '../workflow/inspectScreen/cornerGuesses.ts'
import { type Reads, shortened } from './reads.ts'

/** Four places in a photo, in its pixels from the left and the top: x,y,x,y,x,y,x,y. */
export function fourCorners(): Reads<readonly Corner[]> {
  return {
    shown: 'x,y,x,y,x,y,x,y',
    read: (text) => {
      const numbers = text
        .split(',')
        .map((part) => (part.trim() === '' ? Number.NaN : Number(part)))
      if (numbers.length !== 8 || !numbers.every((value) => Number.isFinite(value))) {
        throw new Failure(
          'wrong input',
          `The corners must be eight numbers of photo pixels with commas between, like 210,180,1900,160,1930,1420,190,1440. You wrote '${shortened(text)}'.`,
        )
      }
      return [0, 2, 4, 6].map((at) => ({ x: numbers[at] ?? 0, y: numbers[at + 1] ?? 0 }))
    },
  }
}
