import { describe, expect, test } from 'vitest'
import type { Tests } from '../../../api/tests.ts'
import { groundWeave } from './groundWeave.ts'

const FIELD = { leftPx: 30, rightPx: 390, topPx: 40, bottomPx: 180 }
const day = (at: number): string => `2026-09-${String(at).padStart(2, '0')}`
const belief = (from: number, to: number, value: number): Tests['ground']['days'] =>
  Array.from({ length: to - from + 1 }, (_, at) => ({
    on: day(from + at),
    value,
    low: value - 2,
    high: value + 2,
  }))
const reading = (at: number, value: number) => ({
  id: `r${at}`,
  on: day(at),
  value,
  low: value - 4,
  high: value + 4,
  says: '',
})

const GROUND: Tests['ground'] = {
  dose: { value: 40, low: 38, high: 42, confidence: 0.8 },
  days: [...belief(1, 12, 30), ...belief(13, 25, 40)],
  readings: [reading(3, 30), reading(8, 30), reading(16, 40), reading(20, 40)],
  breaks: [{ on: day(13), words: 'new bucket' }],
}

/** The x, y pairs of a path, piece by piece. */
function pieces(path: string): readonly (readonly (readonly [number, number])[])[] {
  return path
    .split('M')
    .filter(Boolean)
    .map((piece) =>
      [...piece.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(
        ([, x, y]) => [Number(x), Number(y)] as const,
      ),
    )
}

describe('what is believed of the ground, woven with what was read', () => {
  const woven = groundWeave(GROUND, FIELD)

  test('nothing heard and nothing believed is no picture', () => {
    expect(groundWeave({ ...GROUND, days: [], readings: [], breaks: [] }, FIELD)).toBeNull()
  })

  test('the belief is cut where something was new, and no band crosses the cut', () => {
    const cut = woven?.breaks[0]?.xPx ?? 0
    expect(woven?.stretches).toHaveLength(2)
    const [before, after] = (woven?.stretches ?? []).map(({ band }) =>
      pieces(band)
        .flat()
        .map(([x]) => x),
    )
    expect(Math.max(...(before ?? []))).toBeLessThanOrEqual(cut + 4)
    expect(Math.min(...(after ?? []))).toBeGreaterThanOrEqual(cut)
  })

  test('a reading stands over its day, as tall as it is vague', () => {
    const up = woven?.up
    const path = pieces(woven?.uprights[0] ?? '').flat()
    const ys = path.map(([, y]) => y)
    expect(Math.max(...ys)).toBeCloseTo(up?.px(26) ?? 0, 0)
    expect(Math.min(...ys)).toBeCloseTo(up?.px(34) ?? 0, 0)
    for (const [x] of path) expect(Math.abs(x - (woven?.along.px(dayAt(3)) ?? 0))).toBeLessThan(2)
  })

  test('where threads meet one goes under: an upright and a thread along are never both whole', () => {
    const along = woven?.stretches.flatMap(({ threads }) => threads.map(pieces)) ?? []
    for (const upright of woven?.uprights ?? []) {
      const ups = pieces(upright)
      const x = ups[0]?.[0]?.[0] ?? 0
      const gapsUp = ups.length - 1
      const gapsAlong = along.filter(
        (thread) =>
          thread.some((piece) => (piece[0]?.[0] ?? x) < x && (piece.at(-1)?.[0] ?? x) < x) &&
          thread.some((piece) => (piece[0]?.[0] ?? x) > x) &&
          !thread.some((piece) => (piece[0]?.[0] ?? x) < x - 1 && (piece.at(-1)?.[0] ?? x) > x + 1),
      ).length
      expect(gapsUp + gapsAlong).toBe(3)
    }
  })

  test('one reading of a thousand does not flatten all the others', () => {
    const wild = { ...reading(22, 40), high: 1000 }
    const many = Array.from({ length: 19 }, (_, at) => reading(at + 1, 30))
    const { up } = groundWeave({ ...GROUND, readings: [...many, wild] }, FIELD) ?? {}
    expect(up?.high).toBeLessThan(100)
  })
})

function dayAt(at: number): number {
  return Math.round(Date.UTC(2026, 8, at) / 86_400_000)
}
