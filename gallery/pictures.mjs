// What the gallery shows: small named functions, each drawing one picture true to size.

import sharp from 'sharp'
import { lu } from '../dist/core/units/quantity.js'
import { openLetters } from '../dist/decode/glyphs.js'
import { pageRaster } from '../dist/decode/pageRaster.js'
import { writePicture } from '../dist/decode/picture.js'
import { DEMO_FILMS } from '../dist/demo/films.js'
import { DEMO_SHOP } from '../dist/demo/shop.js'
import { forecastFilm } from '../dist/workflow/forecastFilm.js'
import { testFilmPage } from '../dist/workflow/papers/testFilm.js'
import { wallChartPage } from '../dist/workflow/papers/wallChart.js'
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

/** A paper as its bits, four to a pixel of the picture each way. */
async function drawPaper(path, page, { resolutionDpi }) {
  const { widthPx, heightPx, bands } = pageRaster(page, { resolutionDpi: 4 * resolutionDpi })
  const grey = Buffer.alloc(widthPx * heightPx, 255)
  const rowBytes = Math.ceil(widthPx / 8)
  let top = 0
  for await (const { rows, bits } of bands) {
    for (let y = 0; y < rows; y++) {
      for (let x = 0; x < widthPx; x++) {
        if (bits[y * rowBytes + (x >> 3)] & (128 >> (x & 7))) grey[(top + y) * widthPx + x] = 0
      }
    }
    top += rows
  }
  await sharp(grey, { raw: { width: widthPx, height: heightPx, channels: 1 } })
    .resize({ width: Math.round(widthPx / 4), kernel: 'mitchell' })
    .png({ compressionLevel: 9 })
    .toFile(path)
}

const DEMO_PAPER = { shop: { name: DEMO_SHOP.name, demo: true }, countsIn: 'light units' }

async function drawTestFilm(path, { bandCounts, paper }) {
  const setUp = 'For 90-48 yellow, the house coating, the big lamp: what does the new bucket want?'
  const film = { ...DEMO_PAPER, bandCounts, paper, setUp, number: 'S-12', date: '2026-11-09' }
  const page = testFilmPage(film, { letters: await openLetters() })
  await drawPaper(path, page, { resolutionDpi: 100 })
}

/** A belief with clean numbers: where ground holds and marks close, and how far each is in doubt. */
function wallRow([medium, value, low, high, word, heard, doubt]) {
  const doses = Array.from({ length: 33 }, (_, at) => 25 * 6 ** (at / 32))
  return {
    medium,
    verdict: 'works',
    dose: { value, low, high },
    word,
    heard,
    cloth: {
      lowLu: 25,
      highLu: 150,
      along: [-1.3, -0.8, -0.4, 0, 0.4, 0.8, 1.3].map((z) => 1.05 * high * Math.exp(doubt * z)),
      across: doses.map((doseLu) => ({ doseLu, share: 1 / (1 + (34.5 / doseLu) ** 30) })),
      good: [],
      woven: [],
    },
  }
}

async function drawWallChart(path) {
  const rows = [
    ['Soft pencil', 42, 36, 47, 'fairly sure', '11 screens, 2 strips', 0.08],
    ['Fine pigment pen', 41, 36, 46, 'fairly sure', '6 screens, 1 strip', 0.09],
    ['Brush and drawing ink', 54, 36, 84, 'sure', '23 screens', 0.06],
    ['Grease marker', 50, 36, 74, 'in doubt', '2 screens', 0.17],
    ['Cut masking film', 70, 36, 125, 'sure', '31 screens, 3 strips', 0.03],
    ['Printed film', 52, 36, 95, 'a first guess', 'none yet', 0.28],
  ].map(wallRow)
  const setUp = '90-48 yellow with the house coating under the big lamp'
  const chart = { ...DEMO_PAPER, rows, setUp, date: '2026-11-09', nextTestDue: '2026-11-23' }
  const page = wallChartPage(chart, { letters: await openLetters() })
  await drawPaper(path, page, { resolutionDpi: 70 })
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
  'test-film': (path) => drawTestFilm(path, { bandCounts: [26, 31, 37, 44, 52, 62], paper: 'a4' }),
  'test-film-twelve': (path) =>
    drawTestFilm(path, {
      bandCounts: [14, 16, 19, 22, 26, 30, 36, 42, 49, 58, 68, 80],
      paper: 'letter',
    }),
  'wall-chart': drawWallChart,
}
