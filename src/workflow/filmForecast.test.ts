import { deflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { sourceOf } from '../formats/bytes.ts'
import { memorySink } from '../formats/sink.testing.ts'
import { openTileStore } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { drawBar, filmOf, seeded } from '../raster/testFilms.testing.ts'
import { doseForFilm } from './doseForFilm.ts'
import { filmPicture } from './filmForecast.ts'
import { filmFindings } from './filmForecastFindings.ts'
import { DEFAULT_SETUP } from './setup.ts'

const deflater = { whole: (bytes: Uint8Array) => Promise.resolve(deflateSync(bytes, { level: 1 })) }
const MARKS = { marksAbove: 0.3 }

/** Ink strokes; faint: thin lines of underdrawing besides; at 300 dpi. */
function drawn(options: Readonly<{ faint?: number; from?: number; to?: number }> = {}): Film {
  const { faint = 0, from = 1.6, to = 2 } = options
  const [widthPx, heightPx] = [700, 600]
  const densities = new Float32Array(widthPx * heightPx)
  const next = seeded(9)
  for (let bar = 0; bar < 20 + faint; bar += 1) {
    const pale = bar >= 20
    drawBar(densities, widthPx, {
      x: 80 + next() * 540,
      y: 80 + next() * 440,
      turn: next() * Math.PI,
      length: 90 + next() * 60,
      width: pale ? 3 : 5 + next() * 6,
      density: pale ? 0.42 + 0.06 * next() : from + ((to - from) * bar) / 19,
    })
  }
  return filmOf(densities, { widthPx, pixelUm: 84.67 })
}

async function stored(film: Film) {
  const { sink, bytes } = memorySink()
  const picture = await filmPicture(film, DEFAULT_SETUP, { sink, deflater })
  return { picture, bytes: bytes(), store: await openTileStore(sourceOf(bytes())) }
}

test('the same film gives the same bytes, and every pixel is counted', async () => {
  const [one, other] = [await stored(drawn()), await stored(drawn())]
  expect(Buffer.compare(one.bytes, other.bytes)).toBe(0)
  expect(one.picture.sizeBytes).toBe(one.bytes.length)
  expect(one.picture.leakCounts.reduce((sum, count) => sum + count, 0)).toBe(700 * 600)
  expect(one.picture.pyramid.levels).toEqual([
    { cellPx: 1, across: 3, down: 3 },
    { cellPx: 2, across: 2, down: 2 },
    { cellPx: 4, across: 1, down: 1 },
  ])
})

test('the weakest mark is the one that sets the dose', async () => {
  const film = drawn({ from: 0.7, to: 2 })
  const findings = await filmFindings(film, DEFAULT_SETUP, MARKS)
  expect(findings.weakestMark).toEqual((await doseForFilm(film, DEFAULT_SETUP, MARKS)).weakestMark)
})

test('half of the marks drawn 5 pixels wide and half 13: half of the shares say so', async () => {
  const densities = new Float32Array(400 * 200)
  for (const [index, width] of [5, 13].entries()) {
    const place = { x: 200, y: 60 + 80 * index, turn: 0, length: 240, width, density: 2 }
    drawBar(densities, 400, place)
  }
  const film = filmOf(densities, { widthPx: 400, pixelUm: 100 })
  const { widthsUm = [] } = await filmFindings(film, DEFAULT_SETUP, MARKS)
  for (const [share, drawnUm] of [500, 1300].flatMap((um) => Array(9).fill(um)).entries()) {
    const because = 'drawn so wide, and a pixel is 100 um; the shares between are of both'
    near(widthsUm[share < 9 ? share : share + 2] ?? 0, drawnUm, { within: 110, because })
  }
})

test('a film without a mark has no findings and no weakest mark', async () => {
  const film = filmOf(new Float32Array(300 * 200), { widthPx: 300, pixelUm: 84.67 })
  const findings = await filmFindings(film, DEFAULT_SETUP, MARKS)
  expect(findings).toMatchObject({
    weakestMark: null,
    findings: [],
    alongLeakShares: [],
    widthsUm: [],
    underdrawing: null,
  })
})

describe('underdrawing', () => {
  const underdrawing = async (film: Film) =>
    (await filmFindings(film, DEFAULT_SETUP, MARKS)).underdrawing

  test('faint thin lines beside ink are noticed, with a limit between the two', async () => {
    const found = await underdrawing(drawn({ faint: 6 }))
    expect(found?.paleBelow).toBeGreaterThan(0.48)
    expect(found?.paleBelow).toBeLessThan(1.6)
    // six lines of 90 to 150 pixels, partly under ink
    expect(found?.lengthMm).toBeGreaterThan(25)
    expect(found?.lengthMm).toBeLessThan((6 * 150 * 84.67) / 1000)
  })

  test('ink alone, and strokes from pale to dark without a gap, are not asked about', async () => {
    expect(await underdrawing(drawn())).toBeNull()
    expect(await underdrawing(drawn({ from: 0.35, to: 1.7 }))).toBeNull()
  })

  test('counted without them the film has only its own marks', async () => {
    const film = drawn({ faint: 6 })
    const paleBelow = (await underdrawing(film))?.paleBelow ?? 0
    const rest = await filmFindings(film, DEFAULT_SETUP, { marksAbove: paleBelow })
    expect(rest.underdrawing).toBeNull()
    expect(Math.min(...rest.findings.map(({ density }) => density))).toBeGreaterThan(1.5)
  })
})
