import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { densityTiff } from '../../fixtures/photos/densityTiff.ts'
import { drawnFilm } from '../../fixtures/photos/film.ts'
import { type NotSuch, notSuchPhotos } from '../../fixtures/photos/notSuchPhotos.ts'
import { photoOfScreen, type Screen } from '../../fixtures/photos/photoOfScreen.ts'
import { refused } from '../commands/run.ts'
import { THOROUGH } from '../thorough.testing.ts'
import { flatScan, thinLines } from './flatScan.testing.ts'
import { assortedFaults, heldTo, inspectPhotoFile } from './inspecting.testing.ts'

const SMALL = { widthPx: 1600, heightPx: 1200 }

describe('a photo of a screen held to its film', { timeout: 240_000 }, () => {
  test('shows the faults that are there, and no others', async () => {
    const film = drawnFilm({ seed: 1, pixelUm: 120, solidDensity: 3 })
    const faults = assortedFaults(0.18)
    const { jpeg, truth } = await photoOfScreen({ film, seed: 1, faults, camera: SMALL })
    const answer = await inspectPhotoFile(jpeg, { film })
    const held = heldTo(truth.findings, { answer })
    // narrower than two pixels no photo shows; a good one shows what is little wider
    const px = answer.resolutionUm / 1000 / truth.pixelMm
    expect([px > 2, px < 2.5]).toEqual([true, true])
    expect(held.asked).toBeGreaterThanOrEqual(12)
    expect(held.found / held.asked, JSON.stringify(held.missed)).toBeGreaterThanOrEqual(0.95)
    expect(held.right / held.claimed, JSON.stringify(held.wrong)).toBeGreaterThanOrEqual(0.9)
    expect(Math.max(...held.offMm)).toBeLessThan(0.5)
    const wide = held.widthShares.toSorted((one, other) => one - other)
    expect(wide[wide.length >> 1]).toBeGreaterThan(0.95)
    expect(wide[wide.length >> 1]).toBeLessThan(1.05)
    expect(held.named / held.found).toBeGreaterThanOrEqual(0.9)
    expect(answer.mirrored).toBe(false)
    expect(answer.verdict).toBe('make again') // a whole area is missing
  })

  test('is good where a sharp flat scan shows a slit in a mark as grey as the film has it', async () => {
    // between strokes the film lets through a fifth to two fifths of the light, three pixels wide
    const film = drawnFilm({
      seed: 3,
      pixelUm: 25_400 / 300,
      widthMm: 90,
      heightMm: 70,
      solidDensity: 3,
    })
    const scan = { focalShare: 20, k1: 0, k2: 0, vignetting: 0, flareShare: 0, blurPx: 0.25 }
    const flat = { tiltDeg: 0, turnDeg: 0, rollDeg: 0.4, widthPx: 1600, heightPx: 1400 }
    const screen: Partial<Screen> = {
      emulsion: [0.005, 0.08, 0.07],
      threadLight: 1,
      coatingSd: 0.01,
      marginMm: 10,
    }
    const { jpeg } = await photoOfScreen({
      film,
      seed: 3,
      screen,
      camera: { ...scan, ...flat },
    })
    const answer = await inspectPhotoFile(jpeg, { film })
    expect(answer.findings).toEqual([])
    expect(answer.verdict).toBe('good')
  })

  test('is laid exactly where thin lines could be met by a lean and a bent lens that are not there', async () => {
    const film = thinLines(2)
    const answer = await inspectPhotoFile(await flatScan(film), { film })
    expect(answer.findings).toEqual([])
  })

  test('is good, and the other way round, when a clean screen is seen from its other side', async () => {
    const film = drawnFilm({ seed: 2, pixelUm: 120, solidDensity: 3 })
    const screen = { mirrored: true, frame: 'metal', emulsion: [0.12, 0.06, 0.1] } as const
    const { jpeg } = await photoOfScreen({ film, seed: 2, screen, camera: SMALL })
    const answer = await inspectPhotoFile(jpeg, { film })
    expect(answer.findings).toEqual([])
    expect(answer.mirrored).toBe(true)
  })
})

describe('a picture that is no photo of this screen', () => {
  let folder = ''
  let pictures: readonly NotSuch[] = []
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'yellowroom-not-such-'))
    pictures = await notSuchPhotos('screen')
    const film = drawnFilm({ seed: 8, pixelUm: 200, solidDensity: 3 })
    await writeFile(join(folder, 'film.tif'), densityTiff(film))
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  test('is refused in one sentence', async () => {
    expect(pictures).toHaveLength(20)
    // a man with a camera, CC0, see fixtures/SOURCES.md
    const real = await readFile(new URL('../../fixtures/photos/real/camera.png', import.meta.url))
    const some = THOROUGH ? pictures : everyFifth(pictures)
    for (const { name, jpeg } of [
      ...(THOROUGH ? some : some.slice(1)),
      { name: 'a real photograph', jpeg: real },
    ]) {
      const photo = join(folder, 'photo.jpg')
      await writeFile(photo, jpeg)
      const { exit, message } = await refused([
        'inspect',
        photo,
        '--film',
        join(folder, 'film.tif'),
      ])
      expect(exit, name).toBe(2)
      expect(message, name).toMatch(/^[A-Z].{20,240}\.$/)
    }
  }, 240_000)
})

function everyFifth<Item>(items: readonly Item[]): readonly Item[] {
  return items.filter((_, at) => at % 5 === 0)
}
