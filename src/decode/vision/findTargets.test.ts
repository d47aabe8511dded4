import { describe, expect, test } from 'vitest'
import { homographyThrough, mapped } from '../../core/inspection/homography.ts'
import { byPdfium } from '../../formats/pdfReaders.testing.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { pdfOf } from '../../workflow/papers/drawn.testing.ts'
import { matPage } from '../../workflow/papers/mat.ts'
import { matLayout, targetCorners } from '../../workflow/papers/matLayout.ts'
import { openLetters } from '../glyphs.ts'
import { findTargets } from './findTargets.ts'

/** The printed mat as pdfium draws it, dim and grey. */
const PX_PER_MM = 5

async function matLight(size: 'a4' | 'letter' | 'a3'): Promise<PhotoLight> {
  const { widthMm, heightMm } = matLayout(size)
  const [widthPx, heightPx] = [Math.round(PX_PER_MM * widthMm), Math.round(PX_PER_MM * heightMm)]
  const pdf = await pdfOf(matPage({ size }, { letters: await openLetters() }))
  const { grey } = await byPdfium(pdf, { widthPx, heightPx })
  const values = Float32Array.from(grey, (value) => 0.02 + (0.2 * value) / 255)
  return { widthPx, heightPx, values }
}

describe('oracle aruco-4x4: the library finds the targets of the printed mat', () => {
  test.each(['a4', 'a3'] as const)('%s, all of them, each in its place', async (size) => {
    const { targets, targetMm, widthMm, heightMm } = matLayout(size)
    const light = await matLight(size)
    const seen = await findTargets(light)
    expect(seen.map(({ number }) => number).sort((a, b) => a - b)).toEqual(
      targets.map(({ number }) => number).sort((a, b) => a - b),
    )
    for (const { number, corners } of seen) {
      const place = targets.find((target) => target.number === number)
      if (place === undefined) throw new Error(`no target ${number}`)
      const off = targetCorners(place, targetMm).map(({ x, y }, at) =>
        Math.hypot(
          (x * light.widthPx) / widthMm - (corners[at]?.x ?? 0),
          (y * light.heightPx) / heightMm - (corners[at]?.y ?? 0),
        ),
      )
      expect(Math.max(...off)).toBeLessThan(1.3) // pdfium paints every pixel it touches
    }
  })
})

const [WIDTH, HEIGHT] = [1000, 1400]

test('seen at an angle, with one covered and two in glare, the others are found', async () => {
  const light = await matLight('a4')
  const layout = matLayout('a4')
  const [right, bottom] = [light.widthPx, light.heightPx]
  const view = homographyThrough([
    { from: { x: 0, y: 0 }, to: { x: -60, y: -40 } },
    { from: { x: WIDTH, y: 0 }, to: { x: right + 90, y: -15 } },
    { from: { x: WIDTH, y: HEIGHT }, to: { x: right + 12, y: bottom + 80 } },
    { from: { x: 0, y: HEIGHT }, to: { x: -25, y: bottom + 25 } },
  ])
  if (view === null) throw new Error('no view')
  const spoilt = layout.targets.slice(0, 3)
  const values = new Float32Array(WIDTH * HEIGHT)
  for (let y = 0; y < HEIGHT; y += 1) {
    for (let x = 0; x < WIDTH; x += 1) {
      const at = mapped(view, { x: x + 0.5, y: y + 0.5 })
      const [column, row] = [Math.floor(at.x), Math.floor(at.y)]
      const inside = column >= 0 && row >= 0 && column < light.widthPx && row < light.heightPx
      const [xMm, yMm] = [at.x / PX_PER_MM, at.y / PX_PER_MM]
      const isSpoilt = spoilt.some(
        (place) => Math.hypot(place.xMm + 6 - xMm, place.yMm + 6 - yMm) < 9,
      )
      const here = inside ? (light.values[row * light.widthPx + column] ?? 0) : 0.5
      values[y * WIDTH + x] = isSpoilt ? 0.9 : here
    }
  }
  const seen = await findTargets({ widthPx: WIDTH, heightPx: HEIGHT, values })
  const numbers = new Set(seen.map(({ number }) => number))
  expect(layout.targets.slice(3).every(({ number }) => numbers.has(number))).toBe(true)
  expect(seen).toHaveLength(layout.targets.length - spoilt.length)
})

test('noise has no targets', async () => {
  let state = 5
  const values = Float32Array.from({ length: 500 * 300 }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  })
  expect(await findTargets({ widthPx: 500, heightPx: 300, values })).toEqual([])
})
