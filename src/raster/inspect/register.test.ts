import { describe, expect, test } from 'vitest'
import { homographyThrough, mapped } from '../../core/inspection/homography.ts'
import { near } from '../../core/units/near.testing.ts'
import { seeded } from '../testFilms.testing.ts'
import { type Grid, gridOf } from './grid.ts'
import { planeOf } from './plane.ts'
import { isMirrored, photoPoint } from './pose.ts'
import { register } from './register.ts'

const WIDTH = 300
const HEIGHT = 400

/** Seeded bars and discs, a picture that lies one way only. */
function picture(seed: number): Grid {
  const next = seeded(seed)
  const plane = planeOf(WIDTH, HEIGHT)
  for (let shape = 0; shape < 24; shape += 1) {
    const [x, y, turn] = [30 + 240 * next(), 30 + 340 * next(), 3 * next()]
    const [long, wide] = shape % 3 === 0 ? [14, 14] : [20 + 50 * next(), 3 + 4 * next()]
    for (let at = 0; at < plane.values.length; at += 1) {
      const [dx, dy] = [(at % WIDTH) - x, Math.floor(at / WIDTH) - y]
      const along = dx * Math.cos(turn) + dy * Math.sin(turn)
      const beside = dy * Math.cos(turn) - dx * Math.sin(turn)
      if (Math.abs(along) < long && Math.abs(beside) < wide) plane.values[at] = 1
    }
  }
  return gridOf(plane, { width: WIDTH, height: HEIGHT, pixel: 1 })
}

/** Where the film's corners (top left, then on round) lie in a photo of 480 x 360. */
const LIES = {
  'at an angle': [
    [132, 24],
    [352, 40],
    [371, 345],
    [103, 322],
  ],
  'on its side': [
    [420, 60],
    [425, 300],
    [70, 310],
    [60, 45],
  ],
  'upside down': [
    [351, 330],
    [130, 345],
    [118, 30],
    [372, 22],
  ],
  mirrored: [
    [352, 40],
    [132, 24],
    [103, 322],
    [371, 345],
  ],
} as const

function photoOf(film: Grid, corners: readonly (readonly [number, number])[]): Grid {
  const [a, b, c, d] = corners
  if (a === undefined || b === undefined || c === undefined || d === undefined) throw new Error()
  const film4 = [
    { x: 0, y: 0 },
    { x: WIDTH, y: 0 },
    { x: WIDTH, y: HEIGHT },
    { x: 0, y: HEIGHT },
  ]
  const pairs = [a, b, c, d].map(([x, y], at) => ({
    from: { x, y },
    to: film4[at] ?? { x: 0, y: 0 },
  }))
  const back = homographyThrough(pairs)
  const photo = planeOf(480, 360)
  for (let y = 0; y < 360; y += 1) {
    for (let x = 0; x < 480; x += 1) {
      let sum = 0
      for (const part of [0.125, 0.375, 0.625, 0.875]) {
        for (const other of [0.125, 0.375, 0.625, 0.875]) {
          const at = mapped(back ?? [], { x: x + part, y: y + other })
          const inside = at.x >= 0 && at.y >= 0 && at.x < WIDTH && at.y < HEIGHT
          const share = inside ? film.values[Math.floor(at.y) * WIDTH + Math.floor(at.x)] : 0
          sum += (0.15 + 0.85 * share) / 16
        }
      }
      photo.values[y * 480 + x] = sum * (1 - 0.3 * ((x - 240) / 240) ** 2)
    }
  }
  return gridOf(photo, { width: 480, height: 360, pixel: 1 })
}

describe('a picture is found in a photo without help', () => {
  test.each(Object.entries(LIES))('%s', (name, corners) => {
    const film = picture(5)
    const found = register(film, photoOf(film, corners))
    expect(found?.best.fit).toBeGreaterThan(0.8)
    expect(found !== null && isMirrored(found.best.pose)).toBe(name === 'mirrored')
    const ends = [
      [-0.75, -1],
      [0.75, -1],
      [0.75, 1],
      [-0.75, 1],
    ] as const
    for (const [at, [u, v]] of ends.entries()) {
      const { s, t } = photoPoint(found?.best.pose ?? new Float64Array(9), { u, v })
      const [x, y] = corners[at] ?? [0, 0]
      near(240 * s + 240, x, { within: 0.5, because: 'half a photo pixel' })
      near(240 * t + 180, y, { within: 0.5, because: 'half a photo pixel' })
    }
  })
})

test('another picture does not fit', () => {
  const found = register(picture(5), photoOf(picture(6), LIES.mirrored))
  expect(found === null ? 0 : found.best.fit).toBeLessThan(0.3)
})
