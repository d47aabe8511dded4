// What the gallery shows: small named functions, each drawing one picture true to size.

import { lu } from '../dist/core/units/quantity.js'
import { writePicture } from '../dist/decode/picture.js'
import { DEMO_FILMS } from '../dist/demo/films.js'
import { forecastFilm } from '../dist/workflow/forecastFilm.js'
import { DEFAULT_SETUP } from '../dist/workflow/setup.js'
import { watchStencil } from '../dist/workflow/watchStencil.js'

/** A demo film's forecast under the usual set-up, as the command draws it with --picture. */
async function drawForecast(path, { name, doseLu, resolutionDpi, setup = DEFAULT_SETUP }) {
  const film = DEMO_FILMS[name].draw({ resolutionDpi })
  const question = { doseLu: lu(doseLu), solidDensity: 3.5 }
  const watched = watchStencil(film, setup, question)
  const { classes } = forecastFilm(film, setup, question, [watched.watch])
  const rows = classes()
  while (!(await rows.next()).done);
  await writePicture(path, watched.picture(), { force: true })
}

/** Name of the picture, and who draws it. */
export const PICTURES = {
  'brush-at-42': (path) =>
    drawForecast(path, { name: 'brushAndWash', doseLu: 42, resolutionDpi: 90 }),
  'pencil-at-30': (path) =>
    drawForecast(path, { name: 'softPencil', doseLu: 30, resolutionDpi: 90 }),
  'pencil-too-little': (path) =>
    drawForecast(path, { name: 'softPencil', doseLu: 8, resolutionDpi: 60 }),
  'cut-mask-at-92': (path) =>
    drawForecast(path, { name: 'cutMask', doseLu: 92, resolutionDpi: 72 }),
  'cut-mask-under-tubes': (path) =>
    drawForecast(path, {
      name: 'cutMask',
      doseLu: 92,
      resolutionDpi: 72,
      setup: {
        ...DEFAULT_SETUP,
        lamp: { kind: 'bank', distanceMm: 80 },
        contact: { ...DEFAULT_SETUP.contact, gapUm: 90 },
      },
    }),
}
