import { expect, test } from 'vitest'
import { drawnFilm, patchFilm } from '../../fixtures/photos/film.ts'
import { photoOfFilm } from '../../fixtures/photos/photoOfFilm.ts'
import { photoOfScreen } from '../../fixtures/photos/photoOfScreen.ts'
import { photoOfStrip } from '../../fixtures/photos/photoOfStrip.ts'
import { otherCoat } from '../../fixtures/photos/photoOfTest.ts'
import { photoOfWedge } from '../../fixtures/photos/photoOfWedge.ts'
import { readTestStrip } from '../../src/workflow/readTestPhoto/readTestStrip.ts'
import { readTestWedge } from '../../src/workflow/readTestPhoto/readTestWedge.ts'
import {
  assortedFaults,
  type Held,
  heldTo,
  inspectPhotoFile,
} from '../photos/inspecting.testing.ts'
import { photoOnMat } from '../photos/mat.testing.ts'
import { errorsOf, pointedOut, readPhotoFile } from '../photos/reading.testing.ts'
import { byFinger, knownStrip, opened, printedStrip } from '../photos/testPhotos.testing.ts'

const MEGAPIXELS_3 = { widthPx: 2000, heightPx: 1500 }
const MEGAPIXELS_24 = { widthPx: 6000, heightPx: 4000 }

/** Ways of holding the phone, from square on to what a hurried hand does. */
function held(seed: number) {
  return {
    tiltDeg: ((seed * 5) % 13) - 6,
    turnDeg: ((seed * 7) % 11) - 5,
    rollDeg: ((seed * 3) % 7) - 3,
    k1: -0.03 + 0.01 * (seed % 5),
  }
}

test('densities, sizes and limits of 12 photos hold', async () => {
  const table: Record<string, number>[] = []
  for (let seed = 1; seed <= 12; seed += 1) {
    const camera = { ...(seed === 12 ? MEGAPIXELS_24 : MEGAPIXELS_3), ...held(seed) }
    const film = patchFilm({ seed, pixelUm: 100 })
    const { jpeg, truth } = await photoOfFilm({ film, seed, camera, dustCount: 10 })
    const read = await readPhotoFile(jpeg, pointedOut(truth))
    const { withinShare, ranges } = errorsOf(read, truth)
    const line = read.answer.smallestLineUm / 1000 / truth.pixelMm
    const row: Record<string, number> = {
      seed,
      within: withinShare,
      sd: read.answer.densitySd,
      line,
    }
    for (const { low, median, p95 } of ranges) {
      row[`median from ${low}`] = median
      row[`p95 from ${low}`] = p95
    }
    table.push(row)
  }
  console.table(table)
  for (const { within, sd, line } of table) {
    expect(within).toBeGreaterThanOrEqual(0.9)
    expect(sd).toBeLessThanOrEqual(0.06)
    expect(line).toBeLessThanOrEqual(2.5)
  }
})

test('8 films under the mat are read to 0.2 % of their size', async () => {
  const table: Record<string, number>[] = []
  for (let seed = 1; seed <= 8; seed += 1) {
    const film = drawnFilm({ seed, pixelUm: 100, widthMm: 180, heightMm: 212 })
    const camera = { widthPx: 2400, heightPx: 3200, ...held(seed) }
    const { jpeg, truth } = await photoOnMat({ film, seed, camera })
    const read = await readPhotoFile(jpeg, [])
    const { withinShare, sizeError } = truth.heldTo(read)
    table.push({ seed, sizeError, within: withinShare, sd: read.answer.densitySd })
  }
  console.table(table)
  for (const { sizeError, within } of table) {
    expect(sizeError).toBeLessThan(0.002)
    expect(within).toBeGreaterThanOrEqual(0.9)
  }
})

test('faults of 20 screens are found where they are', async () => {
  const rows: Held[] = []
  for (let seed = 1; seed <= 20; seed += 1) {
    const film = drawnFilm({ seed, pixelUm: 100, solidDensity: 3 })
    const screen = { mirrored: seed % 4 === 0 }
    const faults = assortedFaults(0.147)
    const camera = { ...MEGAPIXELS_3, ...held(seed) }
    const { jpeg, truth } = await photoOfScreen({ film, seed, faults, screen, camera })
    rows.push(heldTo(truth.findings, { answer: await inspectPhotoFile(jpeg, { film }) }))
  }
  console.table(
    rows.map(({ asked, found, claimed, right, named, offMm }) => ({
      asked,
      found,
      claimed,
      right,
      named,
      farthestMm: Math.max(...offMm),
    })),
  )
  const sum = (of: (row: Held) => number): number => rows.reduce((total, row) => total + of(row), 0)
  expect(sum((row) => row.found) / sum((row) => row.asked)).toBeGreaterThanOrEqual(0.95)
  expect(sum((row) => row.right) / sum((row) => row.claimed)).toBeGreaterThanOrEqual(0.9)
  const off = rows.flatMap(({ offMm }) => offMm).sort((a, b) => a - b)
  expect(off[Math.floor(0.95 * off.length)]).toBeLessThan(0.5)
})

test('50 of 50 clean screens show nothing', async () => {
  const claimed: number[] = []
  for (let seed = 1; seed <= 50; seed += 1) {
    const film = drawnFilm({ seed, pixelUm: 120, solidDensity: 3 })
    const camera = { widthPx: 1600, heightPx: 1200, ...held(seed) }
    const { jpeg } = await photoOfScreen({ film, seed, camera })
    claimed.push((await inspectPhotoFile(jpeg, { film })).findings.length)
  }
  expect(claimed).toEqual(claimed.map(() => 0))
})

test('40 washed-out wedges of other coats are read within a step, and their ranges hold', async () => {
  const rows: Record<string, number | boolean>[] = []
  for (let seed = 1; seed <= 40; seed += 1) {
    const camera = { widthPx: 1600, heightPx: 1200, ...held(seed) }
    const doseLu = 40 * 1.5 ** ((seed % 5) - 1)
    const { jpeg, truth } = await photoOfWedge({ seed, coat: otherCoat(seed), doseLu, camera })
    const photo = await opened(jpeg)
    try {
      const corners = byFinger(truth.corners, seed, 9)
      const { lastSolid, firstClear } = readTestWedge(photo, { corners, steps: 21 })
      rows.push({
        seed,
        solidOff: lastSolid.step - truth.lastSolid,
        clearOff: firstClear.step - truth.firstClear,
        chance: lastSolid.chance,
        solidHolds: lastSolid.low <= truth.lastSolid && truth.lastSolid <= lastSolid.high,
        clearHolds: firstClear.low <= truth.firstClear && truth.firstClear <= firstClear.high,
      })
    } catch (cause) {
      console.log(seed, (cause as Error).message)
    }
  }
  console.table(rows)
  const share = (is: (row: (typeof rows)[number]) => boolean): number =>
    rows.filter(is).length / rows.length
  expect(rows.length).toBeGreaterThanOrEqual(36)
  expect(share(({ solidOff }) => Math.abs(Number(solidOff)) <= 1)).toBeGreaterThanOrEqual(0.9)
  expect(share(({ clearOff }) => Math.abs(Number(clearOff)) <= 1)).toBeGreaterThanOrEqual(0.9)
  expect(share(({ solidHolds }) => solidHolds === true)).toBeGreaterThanOrEqual(0.85)
  expect(share(({ clearHolds }) => clearHolds === true)).toBeGreaterThanOrEqual(0.85)
})

test('bands of 8 washed-out strips get their grade or the next to it, as often as their chance says', async () => {
  const order = ['washed off', 'soft', 'good', 'filling', 'filled']
  const rows: Readonly<{ seed: number; doseLu: number; off: number; chance: number }>[] = []
  for (let seed = 1; seed <= 8; seed += 1) {
    const lowLu = [8, 20, 40, 9][seed % 4]
    const highLu = [90, 160, 400, 60][seed % 4]
    const { printed, dosesLu } = await printedStrip({ lowLu, highLu, bands: 6 })
    const { jpeg, truth } = await photoOfStrip({
      printed,
      dosesLu,
      seed,
      coat: otherCoat(seed),
      density: [1.8, 2.4, 1.5][seed % 3],
      mirrored: seed % 5 === 0,
      camera: { widthPx: 1500, heightPx: 2000, ...held(seed) },
    })
    const stand = truth.grades.filter((grade) => grade !== 'washed off').length
    const [top, bottom] = [printed.edgesMm[0], printed.edgesMm[stand]]
    const tips = [
      { x: 8.4, y: top },
      { x: 201.6, y: top },
      { x: 201.6, y: bottom },
      { x: 8.4, y: bottom },
    ].map(truth.photoPoint)
    const corners = byFinger(tips, seed, 7)
    const known = await knownStrip(dosesLu)
    const { bands } = await readTestStrip(await opened(jpeg), {
      ...known,
      marks: 'printed',
      ...(stand < dosesLu.length ? { corners } : {}), // else it is found by itself
    })
    for (const [at, { grade, chance }] of bands.entries()) {
      const off = order.indexOf(grade) - order.indexOf(truth.grades[at])
      rows.push({ seed, doseLu: dosesLu[at], off, chance })
    }
  }
  console.table(rows)
  const right = rows.filter(({ off }) => off === 0).length / rows.length
  const said = rows.reduce((sum, { chance }) => sum + chance, 0) / rows.length
  expect(rows.every(({ off }) => Math.abs(off) <= 1)).toBe(true)
  expect(Math.abs(right - said)).toBeLessThan(0.15)
})
