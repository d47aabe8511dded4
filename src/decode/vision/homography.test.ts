import { beforeAll, describe, expect, test } from 'vitest'
import { homographyThrough, mapped, type Point } from '../../core/inspection/homography.ts'
import { plainView, seenAt } from '../../core/inspection/lens.ts'
import { near } from '../../core/units/near.testing.ts'
import { openVision } from './openVision.ts'

type Matrix = Readonly<{ data64F: Float64Array }>
type Library = Readonly<{
  CV_32FC2: number
  CV_64FC2: number
  matFromArray: (rows: number, columns: number, type: number, values: readonly number[]) => Matrix
  getPerspectiveTransform: (from: Matrix, to: Matrix) => Matrix
  findHomography: (from: Matrix, to: Matrix) => Matrix
}>

let cv: Library
beforeAll(async () => {
  const { vision } = await openVision()
  cv = vision as unknown as Library
})

const flat = (points: readonly Point[]): readonly number[] => points.flatMap(({ x, y }) => [x, y])
const PHOTO = { widthPx: 4000, heightPx: 3000 }

describe('oracle vision-library: a plane seen at an angle', () => {
  test('four corners give the same nine numbers', () => {
    const sheet = [
      { x: 0, y: 0 },
      { x: 210, y: 0 },
      { x: 210, y: 297 },
      { x: 0, y: 297 },
    ]
    const seen = [
      { x: 412, y: 233 },
      { x: 3391, y: 301 },
      { x: 3604, y: 2788 },
      { x: 157, y: 2611 },
    ]
    const theirs = cv.getPerspectiveTransform(
      cv.matFromArray(4, 1, cv.CV_32FC2, flat(sheet)),
      cv.matFromArray(4, 1, cv.CV_32FC2, flat(seen)),
    ).data64F
    const ours = homographyThrough(sheet.map((from, at) => ({ from, to: seen[at] ?? from })))
    if (ours === null) throw new Error('no homography')
    for (const [at, entry] of ours.entries()) {
      near(entry / (ours[8] ?? 1), theirs[at] ?? Number.NaN, {
        within: 1e-9 * Math.max(1, Math.abs(theirs[at] ?? 0)),
        because: 'rounding of a solution of eight equations',
      })
    }
  })

  test('44 corners of targets, each half a pixel off, give the same places in the photo', () => {
    const view = [11.2, 0.7, 300, -0.4, 10.8, 240, 1.5e-4, -9e-5, 1] as const
    const from = Array.from({ length: 44 }, (_, at) => ({
      x: (at % 2) * 196 + 12 * ((at >> 1) % 2),
      y: 26.5 * Math.floor(at / 4) + 5,
    }))
    let state = 3
    const off = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0
      return state / 2 ** 32 - 0.5
    }
    const to = from.map((point) => {
      const { x, y } = mapped(view, point)
      return { x: x + off(), y: y + off() }
    })
    const theirs = cv.findHomography(
      cv.matFromArray(44, 1, cv.CV_64FC2, flat(from)),
      cv.matFromArray(44, 1, cv.CV_64FC2, flat(to)),
    ).data64F
    const ours = plainView(
      from.map((point, at) => ({ from: point, to: to[at] ?? point })),
      PHOTO,
    )
    if (ours === null) throw new Error('no view')
    const apart = from.map((point) => {
      const [a, b] = [seenAt(ours, point), mapped([...theirs], point)]
      return Math.hypot(a.x - b.x, a.y - b.y)
    })
    expect(Math.max(...apart)).toBeLessThan(0.1) // the error each lets through is 0.15
  })
})
