import { expect, test } from 'vitest'
import type { Corners } from './corners.ts'
import { handlePlaces } from './handlePlaces.ts'

const PHOTO = { widthPx: 1600, heightPx: 1200 }
const STAGE_PX = 320
const scale = STAGE_PX / PHOTO.widthPx

function sheet(length: number, height: number, degrees: number): Corners {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
  const at = (x: number, y: number) => ({
    x: 800 + (cos * x * length) / 2 - (sin * y * height) / 2,
    y: 600 + (sin * x * length) / 2 + (cos * y * height) / 2,
  })
  return [at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)]
}

test('handles of a large sheet stand on its corners', () => {
  const corners = sheet(1200, 800, 3)
  expect(handlePlaces(corners, PHOTO, STAGE_PX)).toEqual(corners)
  expect(handlePlaces(sheet(900, 60, 0), PHOTO, 0)).toEqual(sheet(900, 60, 0))
})

test.each([0, 8, 30, 45, 90])(
  'handles of a small wedge at %i degrees cover neither each other nor the wedge',
  (degrees) => {
    const corners = sheet(700, 60, degrees)
    const places = handlePlaces(corners, PHOTO, STAGE_PX)
    for (const [at, one] of places.entries()) {
      for (const other of places.slice(at + 1)) {
        expect(Math.hypot(one.x - other.x, one.y - other.y) * scale).toBeGreaterThanOrEqual(48)
      }
      for (const corner of corners) {
        expect(Math.hypot(one.x - corner.x, one.y - corner.y) * scale).toBeGreaterThan(24)
      }
    }
  },
)

test('a handle stays where a finger reaches it', () => {
  const corners = sheet(1590, 60, 0)
  for (const { x, y } of handlePlaces(corners, PHOTO, STAGE_PX)) {
    expect(x * scale).toBeGreaterThanOrEqual(12)
    expect(x * scale).toBeLessThanOrEqual(STAGE_PX - 12)
    expect(y).toBeGreaterThan(0)
  }
})
