import { expect, test } from 'vitest'
import type { Thread } from './threads.ts'
import { weave } from './weave.ts'

const doses = Array.from({ length: 21 }, (_, at) => 20 * 4 ** (at / 20))
/** Ground holds from 40 up, each mark opens below 60: by hand, with a clean edge. */
const CLEAN = {
  lowLu: 20,
  highLu: 80,
  along: [60, 60, 60, 60, 60, 60, 60],
  across: doses.map((doseLu) => ({ doseLu, share: doseLu < 40 ? 0 : 1 })),
  good: doses.map((doseLu) => ({ doseLu, chance: doseLu >= 40 && doseLu <= 60 ? 0.9 : 0 })),
  woven: [],
}
const SIZE = { widthPx: 350, heightPx: 63, rows: 'palest lowest' } as const

/** The x, y pairs of threads, piece by piece, the bends of frayed ends among them. */
function pieces(threads: readonly Thread[]): readonly (readonly [number, number][])[] {
  return threads.map(({ points, bend }) =>
    [...points.slice(0, 1), ...(bend === undefined ? [] : [bend]), ...points.slice(1)].map(
      ({ xPx, yPx }) => [xPx, yPx] as [number, number],
    ),
  )
}

test('threads along end where their marks fill in, seven of them, and not one later', () => {
  const { along } = weave(CLEAN, SIZE)
  const endPx = (Math.log(60 / 20) / Math.log(4)) * 350
  const rows = new Set(pieces(along).map(([first]) => Math.floor((first?.[1] ?? 0) / 9)))
  expect(rows.size).toBe(7)
  for (const point of pieces(along).flat()) expect(point[0]).toBeLessThanOrEqual(endPx + 0.1)
})

test('threads across stand from where the ground holds, and reach the top', () => {
  const { across } = weave(CLEAN, SIZE)
  const tops = new Map<number, number>()
  for (const [x, y] of pieces(across).flat()) {
    const column = Math.round(x / 9.2)
    tops.set(column, Math.min(y, tops.get(column) ?? 63))
  }
  const holdsPx = 175
  for (const x of pieces(across)
    .flat()
    .map(([at]) => at))
    expect(x).toBeGreaterThan(holdsPx - 18)
  expect([...tops.values()].filter((top) => top < 1).length).toBeGreaterThan(15)
})

test('where both are they go over and under: no thread is whole across the cloth', () => {
  const { along } = weave(CLEAN, SIZE)
  const woven = pieces(along).filter((piece) => (piece[0]?.[0] ?? 0) > 190)
  expect(woven.length).toBeGreaterThan(7 * 2)
})

test('no dose, no weave: threads that never meet are not broken', () => {
  const apart = { ...CLEAN, along: [30, 30, 30, 30, 30, 30, 30] }
  expect(pieces(weave(apart, SIZE).along).length).toBeLessThanOrEqual(14) // a thread and its end each
})

test('a film lies with its palest mark lowest', () => {
  const film = { ...CLEAN, along: [25, 30, 35, 50, 60, 70, 75] }
  const ends = pieces(weave(film, SIZE).along).reduce((far, piece) => {
    for (const [x, y] of piece) {
      const row = Math.min(6, Math.max(0, Math.floor((y + 2) / 9)))
      far.set(row, Math.max(x, far.get(row) ?? 0))
    }
    return far
  }, new Map<number, number>())
  expect(ends.get(6)).toBeLessThan(100)
  expect(ends.get(0)).toBeGreaterThan(300)
})

test('the ground is yellow where the dose works, and threads there take the ink for it', () => {
  const { ground, onMesh } = weave(CLEAN, SIZE)
  expect(ground.filter(({ opacity }) => opacity > 0.9).length).toBeGreaterThan(4)
  expect(onMesh).toHaveLength(1)
  expect(onMesh[0]?.fromShare).toBeCloseTo(0.5, 1)
})

test('the same cloth is drawn the same every time', () => {
  expect(weave(CLEAN, SIZE)).toMatchObject({ along: weave(CLEAN, SIZE).along })
  expect(weave(CLEAN, { ...SIZE, rows: 'mixed' }).across).toEqual(weave(CLEAN, SIZE).across)
})
