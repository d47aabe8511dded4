import { describe, expect, test } from 'vitest'
import { notSuchPhotos } from '../../fixtures/photos/notSuchPhotos.ts'
import { photoOfWedge } from '../../fixtures/photos/photoOfWedge.ts'
import { readTestWedge } from '../../src/workflow/readTestPhoto/readTestWedge.ts'
import { THOROUGH } from '../thorough.testing.ts'
import { byFinger, opened } from './testPhotos.testing.ts'

const SMALL = { widthPx: 1000, heightPx: 500 }
const STEPS = 21

/** In one sentence, or nothing where it answers. */
function refusal(read: () => unknown): string | null {
  try {
    read()
    return null
  } catch (cause) {
    return (cause as Error).message
  }
}

describe('a photo of a washed-out wedge', { timeout: 120_000 }, () => {
  test('tells the last solid step and the first clear one within a step, from either end', async () => {
    const { jpeg, truth } = await photoOfWedge({ seed: 3, doseLu: 90, camera: SMALL })
    const photo = await opened(jpeg)
    const corners = byFinger(truth.corners, 3, 5)
    const read = readTestWedge(photo, { corners, steps: STEPS })
    expect(Math.abs(read.lastSolid.step - truth.lastSolid)).toBeLessThanOrEqual(1)
    expect(Math.abs(read.firstClear.step - truth.firstClear)).toBeLessThanOrEqual(1)
    expect(read.lastSolid.low).toBeLessThanOrEqual(truth.lastSolid)
    expect(read.lastSolid.high).toBeGreaterThanOrEqual(truth.lastSolid)
    expect(read.left).toEqual(read.left.toSorted((a, b) => b - a))
    const [a, b, c, d] = corners
    const turned = readTestWedge(photo, { corners: [c, d, a, b], steps: STEPS })
    expect(turned.lastSolid.step).toBe(read.lastSolid.step)
  })

  test('is refused where it is blurred, mirrored in by a lamp, or where no wedge lies', async () => {
    const scene = { seed: 4, doseLu: 60, camera: SMALL }
    const soft = await photoOfWedge({ ...scene, camera: { ...SMALL, blurPx: 14 } })
    const lit = await photoOfWedge({
      ...scene,
      glare: { xMm: 18, yMm: 6, radiusMm: 9, share: 0.5 },
    })
    for (const { jpeg, truth } of [soft, lit]) {
      const photo = await opened(jpeg)
      const read = () => readTestWedge(photo, { corners: truth.corners, steps: STEPS })
      expect(refusal(read)).toMatch(/^[A-Z].{20,200}\.$/)
    }
    const photo = await opened(soft.jpeg)
    const aside = soft.truth.corners.map(({ x, y }) => ({ x, y: y - 90 }))
    expect(refusal(() => readTestWedge(photo, { corners: aside, steps: STEPS }))).not.toBeNull()
  })

  test('is refused in pictures that are no wedge', async () => {
    const pictures = await notSuchPhotos('screen')
    const some = THOROUGH ? pictures : pictures.filter((_, at) => at % 4 === 0)
    for (const { name, jpeg } of some) {
      const photo = await opened(jpeg)
      const { widthPx, heightPx } = photo
      const corners = [
        { x: 0.1 * widthPx, y: 0.42 * heightPx },
        { x: 0.9 * widthPx, y: 0.42 * heightPx },
        { x: 0.9 * widthPx, y: 0.58 * heightPx },
        { x: 0.1 * widthPx, y: 0.58 * heightPx },
      ]
      const said = refusal(() => readTestWedge(photo, { corners, steps: STEPS }))
      expect(said, name).toMatch(/^[A-Z].{20,200}\.$/)
    }
  })
})
