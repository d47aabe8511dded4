import type { Film } from '../raster/film.ts'
import { clearCanvas, filmOf } from './canvas.ts'
import { knots } from './curve.ts'
import { brush } from './marks/brush.ts'
import { develop, rub } from './marks/pencil.ts'
import { lineOf } from './motifs/contour.ts'
import { randomFrom } from './random.ts'

const SEED = 88
const SHEET = { widthMm: 13, heightMm: 10 }
const RESOLUTION_DPI = 900

/** Pencil and brush as they are on the film: shares of light that come through. */
export const GRADE_FILM_LEAKS: Readonly<{ pale: number; middling: number }> = {
  pale: 10 ** -0.85,
  middling: 10 ** -1.4,
}

/** Reeds in pencil and a brush stroke, a piece of film as large as a stamp: to show what grades look like. */
export function gradeFilm(): Film {
  const canvas = clearCanvas(SHEET, RESOLUTION_DPI)
  const random = randomFrom(SEED)
  const line = lineOf(canvas, random)
  line('1.2,9.4,0.16,0.75 1.5,6,0.16,0.85 2.4,2,0.1,0.7', 2)
  line('2.6,9.4,0.2,0.9 2.7,6,0.2,1 3.1,1.4,0.12,0.8', 2)
  line('4,9.4,0.26,1 3.9,5.6,0.26,1.1 4.6,1,0.14,0.9', 2)
  line('5.4,9.4,0.16,0.6 5.2,7,0.16,0.7 5.6,4.6,0.1,0.6')
  rub(canvas, knots('6.4,9.2,0.5,0.7 6.6,7,0.5,0.7 6.9,5.4,0.3,0.5'), { seed: random.seed() })
  develop(canvas, { seed: random.seed() })
  brush(canvas, knots('7.6,2.2,0.7,1 9.4,1.6,0.9,1 12.2,2.6,0.6,1'), {
    density: 1.6,
    dryFromShare: 0.5,
    dryness: 0.7,
    seed: random.seed(),
  })
  brush(canvas, knots('8,5.2,0.22,1 9.6,4.6,0.26,1 12,5.6,0.16,1'), {
    density: 1.3,
    seed: random.seed(),
  })
  brush(canvas, knots('8,8.2,0.5,1 10,7.4,0.6,1 12.2,8.4,0.4,1'), {
    density: 0.75,
    thinned: true,
    seed: random.seed(),
  })
  return filmOf(canvas)
}
