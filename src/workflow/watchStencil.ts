import { leakLimits } from '../core/forecast/classes.ts'
import type { Lu } from '../core/units/quantity.ts'
import { codeLimits } from '../raster/classify.ts'
import type { Film } from '../raster/film.ts'
import { overviewMaker } from '../raster/overview.ts'
import { findMarks, placeOf } from './doseForFilm.ts'
import { setupDoses, spreadOf } from './exposurePhysics.ts'
import type { Watcher } from './forecastFilm.ts'
import { type ForecastPicture, forecastPicture, PICTURE_CELLS } from './forecastPicture.ts'
import type { Setup } from './setup.ts'

/** Marks are what is denser than this unless somebody says otherwise. */
export const MARKS_ABOVE = 0.3
/** Rings on one picture, and how far apart they must lie. */
const MOST_RINGS = 3
const APART_MM = 12

/** Watches a leak map go by and can then draw the stencil for people. */
export function watchStencil(
  film: Film,
  setup: Setup,
  { doseLu, marksAbove = MARKS_ABOVE }: Readonly<{ doseLu: Lu; marksAbove?: number }>,
): Readonly<{ watch: Watcher; picture: () => ForecastPicture }> {
  const overview = overviewMaker(film, {
    mostCells: PICTURE_CELLS,
    limits: codeLimits(leakLimits(setupDoses(setup), { doseLu })),
    belowTransmission: 10 ** -marksAbove,
  })
  const finder = findMarks(film, spreadOf(setup), { marksAbove })
  return {
    watch: (band) => {
      overview.push(band)
      finder.push(band)
    },
    picture: () => {
      const { long, shortTenth } = finder.finish()
      const weakest = long.length > 0 ? long : shortTenth === null ? [] : [shortTenth]
      const places = weakest.map((mark) => placeOf(mark, film))
      const rings = places.filter((place, at) =>
        places
          .slice(0, at)
          .every((other) => Math.hypot(place.xMm - other.xMm, place.yMm - other.yMm) > APART_MM),
      )
      return forecastPicture(overview.finish(), {
        pixelUm: film.pixelUm,
        doseLu,
        rings: rings.slice(0, MOST_RINGS),
      })
    },
  }
}
