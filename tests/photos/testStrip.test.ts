import { describe, expect, test } from 'vitest'
import { photoOfStrip } from '../../fixtures/photos/photoOfStrip.ts'
import type { PhotoAsk } from '../../src/api/photos.ts'
import { testIn } from '../../src/server/photos/testIn.ts'
import { readTestStrip } from '../../src/workflow/readTestPhoto/readTestStrip.ts'
import { byFinger, inFile, knownStrip, opened, printedStrip } from './testPhotos.testing.ts'

const ORDER = ['washed off', 'soft', 'good', 'filling', 'filled']

describe('a photo of a washed-out strip', { timeout: 120_000 }, () => {
  test('tells each band as it is, or as the next grade to it, with the chance of its word', async () => {
    const { printed, dosesLu } = await printedStrip({ lowLu: 8, highLu: 200, bands: 6 })
    const camera = { widthPx: 900, heightPx: 1200, tiltDeg: 3, rollDeg: -2 }
    const scene = { printed, dosesLu, seed: 5, density: 1.2, camera }
    const { jpeg, truth } = await photoOfStrip(scene)
    const photo = await opened(jpeg)
    const known = await knownStrip(dosesLu)
    const edges = [printed.edgesMm[0], printed.edgesMm.at(-2)]
    // the tips of the points round the bands that stand, as a ruler finds them on the sheet
    const tips = [
      [8.4, edges[0]],
      [201.6, edges[0]],
      [201.6, edges[1]],
      [8.4, edges[1]],
    ].map(([x = 0, y = 0]) => truth.photoPoint({ x, y }))
    const corners = byFinger(tips, 5, 6)
    const { bands } = await readTestStrip(photo, { ...known, marks: 'printed', corners })
    expect(truth.grades[0]).toBe('filled')
    expect(truth.grades.at(-1)).toBe('washed off')
    expect(bands[0]?.grade).toBe('filled')
    expect(bands.at(-1)?.grade).toBe('washed off')
    for (const [at, { grade, chance }] of bands.entries()) {
      const off = ORDER.indexOf(grade) - ORDER.indexOf(truth.grades[at] ?? '')
      expect(Math.abs(off), `band ${at + 1}`).toBeLessThanOrEqual(1)
      expect(chance).toBeGreaterThan(0.3)
      expect(chance).toBeLessThanOrEqual(1)
    }
  })

  test('is found on the paper it was made on, when another was told', async () => {
    const { printed, dosesLu } = await printedStrip({ lowLu: 26, highLu: 62, bands: 4 })
    const camera = { widthPx: 900, heightPx: 1200, tiltDeg: 2, rollDeg: 1 }
    const { jpeg } = await photoOfStrip({ printed, dosesLu, seed: 3, density: 1.6, camera })
    const [onA4, onLetter] = await inFile(jpeg, async (path) => {
      const read = async (paper: 'a4' | 'letter') => {
        const countsIn = 'light units'
        const ask: PhotoAsk = {
          strip: { bandCounts: [...dosesLu], countsIn, paper, marks: 'printed' },
        }
        const photo = { path, name: 'photo.jpg' }
        const result = await testIn({ kind: 'test', test: 'strip', photo, ask }, () => undefined)
        return result.kind === 'test' ? result.told : null
      }
      return [await read('a4'), await read('letter')]
    })
    const [said, ...warnings] = onLetter?.warnings ?? []
    expect(said).toBe('The film in the photo is one on A4 paper, and was read as that.')
    expect({ ...onLetter, warnings }).toEqual(onA4)
  })
})
