import { describe, expect, test } from 'vitest'
import {
  clearFilm,
  densitiesOf,
  drawnFilm,
  type FilmDensities,
  patchFilm,
  patchOf,
  strokeOf,
  wander,
} from '../../fixtures/photos/film.ts'
import { type FilmScene, photoOfFilm } from '../../fixtures/photos/photoOfFilm.ts'
import { seeded } from '../../fixtures/photos/random.ts'
import { sharp } from '../../src/decode/pixelLibrary.ts'
import { readPhoto } from '../../src/workflow/readPhoto/readPhoto.ts'
import { byTruth, inTheMiddle, opened, refusal, withinShare } from './whatIsRead.testing.ts'

const SMALL = { widthPx: 720, heightPx: 540 }

/** A light hand: a few soft strokes, all of one density. */
function faintFilm(density: number, count: number): FilmDensities {
  const film = clearFilm({ widthMm: 200, heightMm: 140 }, 200)
  const random = seeded(5)
  for (let stroke = 0; stroke < count; stroke += 1) {
    const at = { x: random.between(40, 160), y: random.between(30, 110) }
    const points = wander(random, { ...at, stepMm: 4, steps: 6 })
    strokeOf(film, { points, widthMm: 0.8, density, softMm: 0.2 })
  }
  return densitiesOf(film)
}

function nearlyBlack(): FilmDensities {
  const film = clearFilm({ widthMm: 200, heightMm: 140 }, 200)
  for (const left of [12, 90]) patchOf(film, { left, top: 12, sizeMm: 100, density: 2 })
  return densitiesOf(film)
}

const drawn = drawnFilm({ seed: 5, pixelUm: 200 })

describe('corners given by hand, and no wedge,', () => {
  const colour = (red: number, green: number, blue: number) => ({
    colour: [red, green, blue] as const,
  })
  const FILMS: Readonly<Record<string, Partial<FilmScene>>> = {
    'a very faint film': { film: faintFilm(0.16, 25) },
    'a film with two strokes on it': { film: faintFilm(0.9, 2) },
    'a film that is nearly all black': { film: nearlyBlack() },
    'a heavy base': { baseDensity: 0.35 },
    'a warm light table': { table: colour(1, 0.7, 0.4) },
    'a blue light table': { table: colour(0.7, 0.85, 1) },
    'an uneven light table': { table: { gradientShare: 0.35, tubeShare: 0.08 } },
    'a dim photo': { camera: { ...SMALL, exposure: 0.15 } },
  }
  test.each(Object.entries(FILMS))('let %s through', async (_, scene) => {
    const { jpeg, truth } = await photoOfFilm({
      film: drawn,
      seed: 5,
      camera: SMALL,
      wedge: null,
      ...scene,
    })
    expect(refusal(await opened(jpeg), byTruth(truth))).toBeNull()
  })

  test('let a film of red masking film through', async () => {
    const film = drawnFilm({ seed: 21, pixelUm: 200, solidDensity: 1.2 })
    const { jpeg, truth } = await photoOfFilm({ film, seed: 5, camera: SMALL, wedge: null })
    const { data, info } = await sharp(jpeg).raw().toBuffer({ resolveWithObject: true })
    for (let at = 0; at < data.length; at += 3) {
      if ((data[at + 1] ?? 0) < 170) data[at] = Math.min(250, 2.4 * (data[at] ?? 0))
    }
    const { width, height } = info
    const red = await sharp(data, { raw: { width, height, channels: 3 } })
      .jpeg()
      .toBuffer()
    expect(refusal(await opened(red), byTruth(truth))).toBeNull()
  })
})

test('a scan, all sheet from edge to edge, is read; so is a faint one', async () => {
  for (const film of [drawn, faintFilm(0.2, 25)]) {
    const random = seeded(7)
    const grey = Uint8Array.from(film.densities, (density) => {
      const light = 0.85 * 10 ** -(density + 0.05) + 0.002 * random.normal()
      return 255 * Math.max(0, 1.055 * Math.max(0, light) ** (1 / 2.4) - 0.055)
    })
    const raw = { width: film.widthPx, height: film.heightPx, channels: 1 } as const
    const photo = await opened(await sharp(grey, { raw }).jpeg({ quality: 95 }).toBuffer())
    const { corners: _, ...whole } = inTheMiddle(photo)
    const { reading } = readPhoto(photo, { ...whole, sizeMm: { widthMm: 200, heightMm: 140 } })
    expect(reading.pixelUm).toBeCloseTo(200, 6)
  }
})

test('a phone held any way up gives the same film', async () => {
  const answers = []
  const film = patchFilm({ pixelUm: 200 })
  for (const orientation of [1, 3, 6, 8] as const) {
    const camera = { ...SMALL, orientation }
    const { jpeg, truth } = await photoOfFilm({ film, seed: 5, camera })
    const read = readPhoto(await opened(jpeg), byTruth(truth))
    expect(withinShare(read, truth), `orientation ${orientation}`).toBeGreaterThanOrEqual(0.9)
    answers.push(read.reading)
  }
  for (const { widthMm, heightMm, densitySd } of answers) {
    expect(widthMm).toBeCloseTo(answers[0]?.widthMm ?? 0, 1)
    expect(heightMm).toBeCloseTo(answers[0]?.heightMm ?? 0, 1)
    expect(densitySd).toBeLessThan(0.06)
  }
})

describe('what a photo tells wrong, it says', () => {
  test('a lamp mirrored in the film', async () => {
    const glare = [{ x: 60, y: 60, radiusMm: 24, share: 0.5 }]
    const camera = { ...SMALL, exposure: 0.6 }
    const { jpeg, truth } = await photoOfFilm({ film: drawn, seed: 5, camera, glare })
    const { warnings } = readPhoto(await opened(jpeg), byTruth(truth)).reading
    expect(warnings.join(' ')).toMatch('shine brighter than the light table')
    const clean = await photoOfFilm({ film: drawn, seed: 5, camera })
    const { warnings: few } = readPhoto(await opened(clean.jpeg), byTruth(clean.truth)).reading
    expect(few.join(' ')).not.toMatch('shine brighter')
  })

  test('clear film that is white: pale marks may be lost, and in the end it is refused', async () => {
    const exposed = async (exposure: number) => {
      const camera = { ...SMALL, exposure }
      const { jpeg, truth } = await photoOfFilm({ film: drawn, seed: 5, camera })
      return { photo: await opened(jpeg), options: byTruth(truth) }
    }
    const some = await exposed(1.2)
    const { densityRange, warnings } = readPhoto(some.photo, some.options).reading
    expect(densityRange.low).toBeGreaterThanOrEqual(0.1)
    expect(warnings.join(' ')).toMatch('brighter than the photo can tell')
    const most = await exposed(1.8)
    expect(refusal(most.photo, most.options)).toMatch('plain white in the photo')
  })
})
