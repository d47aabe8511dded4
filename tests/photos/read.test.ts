import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { drawnFilm, patchFilm } from '../../fixtures/photos/film.ts'
import { type NotSuch, notSuchPhotos } from '../../fixtures/photos/notSuchPhotos.ts'
import { photoOfFilm } from '../../fixtures/photos/photoOfFilm.ts'
import { openPhoto } from '../../src/decode/photo.ts'
import { sharp } from '../../src/decode/pixelLibrary.ts'
import { refused } from '../commands/run.ts'
import { THOROUGH } from '../thorough.testing.ts'
import { photoOnMat } from './mat.testing.ts'
import { errorsOf, pointedOut, readPhotoFile } from './reading.testing.ts'
import { inTheMiddle, opened, refusal } from './whatIsRead.testing.ts'

const SMALL = { widthPx: 1600, heightPx: 1200 }

describe('a photo of a film, its corners and wedge pointed out', () => {
  test('gives densities that hold, by range of density', async () => {
    const { jpeg, truth } = await photoOfFilm({
      film: patchFilm({ pixelUm: 120 }),
      seed: 1,
      camera: SMALL,
    })
    const read = await readPhotoFile(jpeg, pointedOut(truth))
    const { withinShare, ranges } = errorsOf(read, truth)
    expect(withinShare).toBeGreaterThanOrEqual(0.9)
    expect(read.answer.densitySd).toBeLessThanOrEqual(0.06)
    expect(read.answer.smallestLineUm / 1000 / truth.pixelMm).toBeLessThanOrEqual(2.5)
    expect(Math.abs(read.answer.widthMm / truth.widthMm - 1)).toBeLessThan(0.002)
    expect(Math.abs(read.answer.heightMm / truth.heightMm - 1)).toBeLessThan(0.002)
    for (const { low, count, median, p95 } of ranges) {
      expect(count, `pixels from ${low}`).toBeGreaterThan(500)
      expect(median, `median from ${low}`).toBeLessThan(0.03)
      // the tubes of the table alone leave 0.008 where the film is clear
      expect(p95, `95th percentile from ${low}`).toBeLessThan(
        low === 0 ? 0.006 : low < 2 ? 0.06 : 0.1,
      )
    }
  })
})

test('a photo of a film under the printed mat is read without help, to its true size', async () => {
  const film = drawnFilm({ seed: 3, pixelUm: 120, widthMm: 180, heightMm: 212 })
  const { jpeg, truth } = await photoOnMat({
    film,
    seed: 1,
    camera: { widthPx: 1500, heightPx: 2000 },
  })
  const read = await readPhotoFile(jpeg, [])
  const { withinShare, sizeError, ranges } = truth.heldTo(read)
  expect(sizeError).toBeLessThan(0.002)
  expect(withinShare).toBeGreaterThanOrEqual(0.9)
  expect(read.answer.densitySd).toBeLessThanOrEqual(0.04)
  for (const { low, count, bias } of ranges) {
    if (count > 200) expect(Math.abs(bias), `bias from ${low}`).toBeLessThan(0.015)
  }
  expect(read.answer.smallestLineUm / 1000 / truth.pixelMm).toBeLessThanOrEqual(2.5)
}, 120_000)

describe('a picture that is no photo of a film', () => {
  let folder = ''
  let pictures: readonly NotSuch[] = []
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'yellowroom-not-such-'))
    pictures = await notSuchPhotos('film')
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  test('is refused in one sentence, though corners are given', async () => {
    /** Of the twenty these two are films, with corners in the wrong place. */
    const films = ['a film cut off', 'a film without edges']
    const others = pictures.filter(({ name }) => !films.includes(name))
    expect(others).toHaveLength(18)
    for (const { name, jpeg } of others) {
      const photo = await opened(jpeg)
      expect(refusal(photo, inTheMiddle(photo)) ?? 'read', name).toMatch(/^[A-Z].{20,240}\.$/)
    }
    const portrait = others.find(({ name }) => name === 'a portrait')
    const grey = await opened(await sharp(portrait?.jpeg).greyscale().jpeg().toBuffer())
    expect(refusal(grey, inTheMiddle(grey))).toMatch('No clear film and no even light')
  })

  test.each([
    ['camera.png', 'No clear film and no even light'],
    ['clock_motion.png', 'brighter than its clear parts'],
  ])('is refused in one sentence where it is a real photograph: %s', async (name, says) => {
    // CC0 and public domain, see fixtures/SOURCES.md
    const path = fileURLToPath(new URL(`../../fixtures/photos/real/${name}`, import.meta.url))
    const photo = await openPhoto(path)
    expect(refusal(photo, inTheMiddle(photo))).toMatch(says)
    const { exit, message } = await refused(['read', path, '--out', join(folder, 'map.tif')])
    expect([exit, message]).toEqual([2, expect.stringMatching(/^No reading mat is seen.*\.$/)])
  })

  test('is refused in one sentence where the mat is looked for in it', async () => {
    expect(pictures).toHaveLength(20)
    for (const { name, jpeg } of THOROUGH ? pictures : pictures.filter((_, at) => at % 5 === 0)) {
      const photo = join(folder, 'photo.jpg')
      await writeFile(photo, jpeg)
      const { exit, message } = await refused(['read', photo, '--out', join(folder, 'map.tif')])
      expect(exit, name).toBe(2)
      expect(message, name).toMatch(/^[A-Z].{20,240}\.$/)
    }
  }, 240_000)
})
