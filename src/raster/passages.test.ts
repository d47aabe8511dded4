import { expect, test } from 'vitest'
import type { AxisPoint } from './axisPoints.ts'
import { codeOfLeak } from './leakCode.ts'
import { passageFinder } from './passages.ts'

const FILM = { widthPx: 1000, heightPx: 600 }
const OPTIONS = { leastPoints: 5, alikeDensity: 0.1, most: 4 }

function line(
  from: Readonly<{ x: number; y: number }>,
  length: number,
  density: number,
): AxisPoint[] {
  return Array.from({ length }, (_, at) => ({
    x: from.x + at,
    y: from.y,
    leakCode: codeOfLeak(10 ** -density),
    filmCode: codeOfLeak(10 ** -density),
    widthPx: 6,
  }))
}

test('two faint strokes far apart are two passages, the fainter first; a strong one comes last', () => {
  const finder = passageFinder(FILM, { cellPx: 40 })
  const points = [
    ...line({ x: 700, y: 300 }, 90, 0.61),
    ...line({ x: 100, y: 110 }, 130, 0.85),
    ...line({ x: 300, y: 500 }, 200, 2.1),
  ]
  for (const point of points) finder.add(point, 1)
  const list = finder.list(OPTIONS)
  expect(list.map(({ left, top, right, bottom }) => [left, top, right, bottom])).toEqual([
    [680, 280, 800, 320],
    [80, 80, 240, 120],
    [280, 480, 520, 520],
  ])
  expect(list.map(({ axisPoints }) => axisPoints)).toEqual([90, 130, 200])
  expect(list[0]?.weak).toMatchObject({ y: 300, leakCode: codeOfLeak(10 ** -0.61) })
})

test('specks are no passage, and pale points that hardly count do not make a place weak', () => {
  const finder = passageFinder(FILM, { cellPx: 40 })
  for (const point of line({ x: 500, y: 20 }, 4, 0.4)) finder.add(point, 1)
  for (const point of line({ x: 10, y: 210 }, 25, 0.35)) finder.add(point, 0.01)
  for (const point of line({ x: 10, y: 215 }, 25, 1.4)) finder.add(point, 1.1)
  const list = finder.list(OPTIONS)
  expect(list).toHaveLength(1)
  expect(list[0]?.weak.leakCode).toBe(codeOfLeak(10 ** -1.4))
})
