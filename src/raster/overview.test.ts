import { expect, test } from 'vitest'
import { codeLimits } from './classify.ts'
import { codeOfLeak } from './leakCode.ts'
import type { LeakBand } from './leakMap.ts'
import { FATES, overviewMaker } from './overview.ts'
import { type PictureInks, paintStencil } from './stencilPicture.ts'

const LIMITS = codeLimits({ skin: 0.1, hold: 0.2, full: 0.8 })

/** A band made by hand: leak and film transmission of each pixel. */
function band(rows: readonly (readonly (readonly [number, number])[])[]): LeakBand {
  const widthPx = rows[0].length
  const pixels = rows.flat()
  return {
    top: 0,
    rows: rows.length,
    widthPx,
    codes: Uint16Array.from(pixels, ([leak]) => codeOfLeak(leak)),
    filmCodes: Uint16Array.from(pixels, ([, film]) => codeOfLeak(film)),
  }
}

test('each cell tells how many of its pixels met each fate, also where the film ends inside it', () => {
  const [open, veiled, ground, lost] = [
    [0.05, 0.01],
    [0.15, 0.1],
    [0.9, 1],
    [0.15, 1],
  ] as const
  const maker = overviewMaker(
    { widthPx: 3, heightPx: 2 },
    { mostCells: 2, limits: LIMITS, belowTransmission: 0.5 },
  )
  maker.push(
    band([
      [open, veiled, ground],
      [ground, ground, lost],
    ]),
  )
  const { across, down, cellPx, shares } = maker.finish()
  expect([across, down, cellPx]).toEqual([2, 1, 2])
  expect([...shares.subarray(0, 8)]).toEqual([0.25, 0.25, 0, 0, 0, 0, 0, 0.5])
  expect(shares[8 + FATES.groundClosed]).toBe(0.5)
  expect(shares[8 + FATES.groundVeiled]).toBe(0.5)
})

const INKS: PictureInks = {
  sheet: [250, 250, 250],
  ink: [20, 20, 20],
  cut: [150, 20, 30],
  soft: [90, 90, 90],
}

/** Darkest grey in the small picture of one upright line on an A3 film at 720 dpi. */
function darkest(leak: number, linePx: number): number {
  const [widthPx, heightPx] = [8400, 64]
  const row = Array.from({ length: widthPx }, (_, x) =>
    x >= 4003 && x < 4003 + linePx ? ([leak, 0.001] as const) : ([1, 1] as const),
  )
  const maker = overviewMaker(
    { widthPx, heightPx },
    { mostCells: 700, limits: LIMITS, belowTransmission: 0.5 },
  )
  maker.push(band(Array.from({ length: heightPx }, () => row)))
  const overview = maker.finish()
  const rgb = new Uint8Array(3 * overview.across * overview.down)
  paintStencil(
    overview,
    INKS,
    { rgb, widthPx: overview.across, heightPx: overview.down },
    { left: 0, top: 0 },
  )
  return rgb.reduce((least, value) => Math.min(least, value), 255)
}

test('a line of 0.1 mm stays to be seen in a picture twelve times smaller, open, in doubt or shut', () => {
  const linePx = 3 // 0.106 mm at 720 dpi
  expect(darkest(0.05, linePx)).toBeLessThan(130)
  expect(darkest(0.15, linePx)).toBeLessThan(140)
  expect(darkest(0.95, linePx)).toBeLessThan(190)
  expect(darkest(0.95, 0)).toBe(250)
})

test('ground that may wash away is drawn as threads, and only away from marks', () => {
  const [widthPx, heightPx] = [40, 12]
  const rows = Array.from({ length: heightPx }, () =>
    Array.from({ length: widthPx }, (_, x) =>
      x < 4 ? ([0.05, 0.01] as const) : ([0.15, 1] as const),
    ),
  )
  const maker = overviewMaker(
    { widthPx, heightPx },
    { mostCells: 40, limits: LIMITS, belowTransmission: 0.5 },
  )
  maker.push(band(rows))
  const rgb = new Uint8Array(3 * widthPx * heightPx)
  paintStencil(maker.finish(), INKS, { rgb, widthPx, heightPx }, { left: 0, top: 0 })
  const columns = Array.from({ length: widthPx }, (_, x) => rgb[3 * (5 * widthPx + x)])
  expect(columns.slice(0, 4)).toEqual([20, 20, 20, 20])
  expect(columns[4]).toBe(250)
  const threads = columns.flatMap((grey, x) => (grey === 90 ? [x] : []))
  expect(threads.length).toBeGreaterThan(2)
  expect(new Set(threads.slice(1).map((x, at) => x - threads[at])).size).toBe(1)
})
