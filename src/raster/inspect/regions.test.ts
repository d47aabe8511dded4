import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { differences, type Limits } from './differences.ts'
import { blur, type Plane, planeOf } from './plane.ts'
import { regionsOf } from './regions.ts'

const LIMITS: Limits = { openWeak: 0.15, openStrong: 0.3, shutWeak: 0.15, shutStrong: 0.3 }

/** A letter a cell: openness in tenths; `.` is 0, `#` is 1. */
function drawn(rows: readonly string[]): Plane {
  const plane = planeOf(rows[0]?.length ?? 0, rows.length)
  for (const [at, letter] of [...rows.join('')].entries()) {
    plane.values[at] = letter === '#' ? 1 : letter === '.' ? 0 : Number(letter) / 10
  }
  return plane
}

const FILM = drawn([
  '....................',
  '....................',
  '.########...........',
  '.########...........',
  '.########...........',
  '.########...........',
  '.########...........',
  '....................',
  '....................',
  '....................',
])

function found(screen: readonly string[]): ReturnType<typeof regionsOf> {
  const openness = drawn(screen)
  return regionsOf(differences(openness, FILM, LIMITS), { openness, expected: FILM })
}

test('a screen like its film, or a cell beside it, shows nothing', () => {
  const rows = Array.from({ length: 10 }, (_, y) => [...FILM.values.subarray(20 * y, 20 * y + 20)])
  const text = rows.map((row) => row.map((value) => (value > 0 ? '#' : '.')).join(''))
  expect(found(text)).toEqual([])
  expect(found(text.map((row) => `.${row.slice(0, -1)}`))).toEqual([])
  expect(found(['.'.repeat(20), ...text.slice(0, -1)])).toEqual([])
})

test('holes in the ground are counted apart, those that touch at a corner together', () => {
  const regions = found([
    '....................',
    '............##......',
    '.########.....#.....',
    '.########...........',
    '.########...........',
    '.########........#..',
    '.########...........',
    '....................',
    '....................',
    '....................',
  ])
  expect(regions.map(({ sign, cells }) => [sign, cells])).toEqual([
    ['open', 3],
    ['open', 1],
  ])
  const [first] = regions
  // cells (12, 1), (13, 1), (14, 2): their middles' mean
  near(first?.x ?? 0, 13.5, { within: 1e-6, because: 'by hand' })
  near(first?.y ?? 0, 1.5 + 1 / 3, { within: 1e-6, because: 'by hand' })
  expect([first?.left, first?.top, first?.right, first?.bottom]).toEqual([12, 1, 15, 3])
})

test('a mark that lets half the light through is shut by half, inside its edge', () => {
  const [region, ...more] = found([
    '....................',
    '....................',
    '.########...........',
    '.#555555#...........',
    '.#555555#...........',
    '.#555555#...........',
    '.########...........',
    '....................',
    '....................',
    '....................',
  ])
  expect(more).toEqual([])
  expect(region).toMatchObject({ sign: 'shut', cells: 18, strong: 18 })
  near(region?.seen ?? 0, 0.5, { within: 1e-6, because: 'every cell is 0.5' })
  near(region?.amount ?? 0, 9, { within: 1e-5, because: '18 cells by half' })
})

test('a hole that opens into a mark runs beside its edge', () => {
  const [region] = found([
    '....................',
    '....................',
    '.########...........',
    '.###########........',
    '.###########........',
    '.###########........',
    '.########...........',
    '....................',
    '....................',
    '....................',
  ])
  expect(region?.sign).toBe('open')
  expect((region?.besideEdge ?? 0) / (region?.sides ?? 1)).toBeGreaterThan(0.3)
})

/** A blurred scratch of a plane of nothing, turned by an angle, so long and so wide. */
function scratched(angle: number, { length, width }: Readonly<{ length: number; width: number }>) {
  const plane = planeOf(90, 90)
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const fine = 5
  for (let at = 0; at < plane.values.length * fine * fine; at += 1) {
    const [x, y] = [at % (90 * fine), Math.floor(at / (90 * fine))]
    const [dx, dy] = [(x + 0.5) / fine - 44.7, (y + 0.5) / fine - 45.2]
    const isIn =
      Math.abs(cos * dx + sin * dy) < length / 2 && Math.abs(cos * dy - sin * dx) < width / 2
    if (isIn) plane.values[Math.floor(y / fine) * 90 + Math.floor(x / fine)] += 1 / fine ** 2
  }
  blur(plane, 0.9)
  return plane
}

test('an outline is as long whichever way it runs', () => {
  const expected = planeOf(90, 90)
  for (const degrees of [0, 11, 23, 45, 70, 90]) {
    const openness = scratched((degrees * Math.PI) / 180, { length: 50, width: 5 })
    const [region] = regionsOf(differences(openness, expected, LIMITS), { openness, expected })
    // the rectangle's, and what blur carries its convex outline outwards: 1.036 sd, once around
    near(region?.outline ?? 0, 110 + 2 * Math.PI * 1.036 * 0.9, {
      within: 3.5,
      because: 'corners are rounded, cells are whole',
    })
  }
})
