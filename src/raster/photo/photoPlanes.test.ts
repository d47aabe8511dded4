import { expect, test } from 'vitest'
import { plainView } from '../../core/inspection/lens.ts'
import { linearLight } from '../../core/inspection/linearLight.ts'
import { gridOf } from '../inspect/grid.ts'
import { straightPose } from '../inspect/pose.ts'
import { straighten, straightened } from '../inspect/straighten.ts'
import { turnToDensities } from './densities.ts'
import { laidFlat, laidLarge } from './laidFlat.ts'
import { lightReader } from './lightCode.ts'
import type { PhotoLight } from './photoLight.ts'
import { reduced } from './reduced.ts'
import { lightOf } from './storedLight.ts'

const SIZE = { widthPx: 203, heightPx: 151 }

/** A photo as a file stores it: dark and light, some of it at its end. */
function stored(channels: number, bitDepth: 8 | 16) {
  const most = bitDepth === 16 ? 65_535 : 255
  const length = SIZE.widthPx * SIZE.heightPx * channels
  const data = bitDepth === 16 ? new Uint16Array(length) : new Uint8Array(length)
  let state = 5
  for (let at = 0; at < length; at += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) | 0
    data[at] = Math.min(most, ((state >>> 8) / 2 ** 24) * most * 1.03)
  }
  return { data, channels, bitDepth, ...SIZE }
}

function photoOf(channels: number, bitDepth: 8 | 16): PhotoLight & Readonly<{ plain: PhotoLight }> {
  const planes = lightOf(stored(channels, bitDepth))
  const plain = { ...SIZE, values: planes.light.slice() }
  return { ...SIZE, values: planes.light, planes, plain }
}

/** Askew, and a little beyond the photo at one corner. */
const CORNERS = [
  [12, 8],
  [196, 3],
  [206, 149],
  [4, 140],
] as const
const BOX = { xMm: 0, yMm: 0, widthMm: 90, heightMm: 70 }
const OWN = [
  [0, 0],
  [90, 0],
  [90, 70],
  [0, 70],
] as const

function viewOf(photo: PhotoLight) {
  const pairs = OWN.map(([x, y], at) => {
    const [seenX, seenY] = CORNERS[at] ?? [0, 0]
    return { from: { x, y }, to: { x: seenX, y: seenY } }
  })
  const view = plainView(pairs, photo)
  if (view === null) throw new Error('no view')
  return view
}

test('sRGB’s weights and curve make light of what is stored, and an end of any colour is the end', () => {
  for (const bitDepth of [8, 16] as const) {
    const { data } = stored(3, bitDepth)
    const { values } = photoOf(3, bitDepth)
    const full = bitDepth === 16 ? 65_000 : 254
    const most = bitDepth === 16 ? 65_535 : 255
    for (const at of [0, 77, 5000, values.length - 1]) {
      const colours = [0, 1, 2].map((channel) => data[3 * at + channel] ?? 0)
      const [red = 0, green = 0, blue = 0] = colours.map((value) => linearLight(value / most))
      const isAtEnd = colours.some((value) => value >= full)
      const light = isAtEnd ? 1 : 0.2126 * red + 0.7152 * green + 0.0722 * blue // IEC 61966-2-1
      expect(lightReader(values)(at)).toBeCloseTo(light, 3.5)
    }
  }
})

test('a grey file has its own light', () => {
  const { data } = stored(1, 8)
  const { values } = photoOf(1, 8)
  expect(lightReader(values)(9)).toBeCloseTo(linearLight((data[9] ?? 0) / 255), 3.5)
})

test('machine code lays, shrinks and turns to densities by the same bits as the plain loops', () => {
  const photo = photoOf(3, 8)
  const where = { view: viewOf(photo), box: BOX, pixelMm: 0.41 }
  const ours = laidLarge(photo, where)
  const plain = laidFlat(photo.plain, where)
  expect(ours.lent).toBeDefined()
  expect(ours.values.some(Number.isNaN)).toBe(true)
  expect(ours.values).toEqual(plain.values)
  expect(reduced(photo, 3)).toEqual(reduced(photo.plain, 3))
  expect(reduced(ours, 2)).toEqual(reduced(plain, 2))
  const seen = {
    logClear: (x: number, y: number) => -0.1 - 0.001 * x + 0.0007 * y,
    densityOf: (density: number) => 1.04 * density - 0.01,
    highest: 1.7,
  }
  expect(turnToDensities(ours, seen)).toEqual(turnToDensities(plain, seen))
  expect(ours.values).toEqual(plain.values)
})

test('greys to look at are the roots of the light made smaller', () => {
  const photo = photoOf(3, 8)
  const greys = photo.planes?.greys(2) ?? []
  const { values } = reduced(photo.plain, 2)
  expect(greys).toHaveLength(values.length)
  for (const [at, grey] of greys.entries()) {
    expect(Math.abs(grey - 255 * Math.sqrt(values[at] ?? 0))).toBeLessThan(1.001)
  }
})

test('a second large sheet does not lie over the first', () => {
  const photo = photoOf(1, 8)
  const where = { view: viewOf(photo), box: BOX, pixelMm: 0.5 }
  const first = laidLarge(photo, where)
  const kept = first.values.slice()
  const second = laidLarge(photo, { ...where, pixelMm: 0.6 })
  expect(second.lent).toBeUndefined()
  expect(first.values).toEqual(kept)
})

test('machine code lays a photo over its film by the same bits as the plain loops', () => {
  const photo = photoOf(3, 16)
  const film = gridOf(
    { widthPx: 190, heightPx: 170, values: new Float32Array(190 * 170).fill(0.25) },
    { width: 190, height: 170, pixel: 1 },
  )
  const light = {
    degree: 2 as const,
    ground: Float64Array.of(0.1, 0.01, -0.02, 0.01, 0, 0.01),
    follows: 0 as const,
    gain: Float64Array.of(0.5, 0.02, 0, -0.05),
  }
  const pose = straightPose([0.9, 0.04, 0.02, -0.05, 0.88, 0, 0.03, -0.02])
  const out = new Float32Array(film.values.length)
  const unseen = straighten(photo.plain, film, { pose, light, out })
  const ours = straightened(photo, film, { pose, light })
  expect(unseen).toBeGreaterThan(0)
  expect(ours.unseen).toBe(unseen)
  expect(ours.openness.values).toEqual(out)
})
