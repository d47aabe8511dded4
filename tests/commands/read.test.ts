import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fromArrayBuffer } from 'geotiff'
import { afterAll, describe, expect, test } from 'vitest'
import { near } from '../../src/core/units/near.testing.ts'
import { sharp } from '../../src/decode/pixelLibrary.ts'
import { json, refused } from './run.ts'

const folder = mkdtempSync(join(tmpdir(), 'yellowroom-test-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const at = (name: string): string => join(folder, name)

const PHOTO = 'docs/example/film.jpg'
const CORNERS = ['--corners', '105,97,1008,92,1012,1459,25,1396', '--size-mm', '210x297']
const WEDGE = ['--wedge', '160,1480,854,1527']

async function mapAt(path: string): Promise<Float32Array> {
  const bytes = new Uint8Array(readFileSync(path))
  const image = await (await fromArrayBuffer(bytes.buffer)).getImage()
  const [densities] = (await image.readRasters()) as unknown as [Float32Array]
  return densities
}

/** A photo as the tests need it: linear light by place, stored as sRGB. */
async function photoOf(name: string, light: (x: number, y: number) => number): Promise<string> {
  const [width, height] = [900, 700]
  const grey = Uint8Array.from({ length: width * height }, (_, index) => {
    const linear = light(index % width, Math.floor(index / width))
    return Math.round(
      255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055),
    )
  })
  await sharp(grey, { raw: { width, height, channels: 1 } })
    .png()
    .toFile(at(name))
  return at(name)
}
const OF_PHOTO = ['--corners', '100,100,800,100,800,600,100,600', '--size-mm', '140x100']

describe('a photo of the example film', () => {
  test('becomes a map with the keys of the contract, to be read by another reader', async () => {
    const answer = await json(['read', PHOTO, ...CORNERS, ...WEDGE, '--out', at('map.tif')])
    expect(answer).toMatchObject({ kind: 'reading', mat: false })
    const { widthMm, heightMm, pixelUm, densityRange, smallestLineUm, densitySd } = answer
    near(Number(widthMm), 210, { within: 0.42, because: 'the size is right to 0.2 %' })
    near(Number(heightMm), 297, { within: 0.6, because: 'the size is right to 0.2 %' })
    expect(Number(densitySd)).toBeLessThanOrEqual(0.06)
    expect(Number(smallestLineUm)).toBeGreaterThan(Number(pixelUm))
    expect((densityRange as { high: number }).high).toBeGreaterThan(2)
    const densities = await mapAt(at('map.tif'))
    const across = Math.round((1000 * 210) / Number(pixelUm))
    expect(densities.length % across).toBe(0)
    expect(Math.min(...densities.slice(0, 50_000))).toBeGreaterThanOrEqual(0)
  })

  test('without its wedge is an estimate, plainly less sure, and says so', async () => {
    const answer = await json(['read', PHOTO, ...CORNERS, '--out', at('estimate.tif')])
    expect(Number(answer['densitySd'])).toBeGreaterThan(0.12)
    expect(String(answer['warnings'])).toContain('No step wedge was read')
  })

  test('may have its densities from a list, and refuses one that falls', async () => {
    const densities = ['--wedge-densities', '0.5:-0.1:21']
    const answer = await refused([
      'read',
      PHOTO,
      ...CORNERS,
      ...WEDGE,
      ...densities,
      '--out',
      at('no.tif'),
    ])
    expect(answer).toMatchObject({ exit: 2, kind: 'wrong input', field: 'wedge-densities' })
  })
})

test('patches of known density, hand-made, are told by Beer’s law', async () => {
  const photo = await photoOf('patches.png', (x, y) => {
    const [column, row] = [Math.floor((x - 130) / 80), Math.floor((y - 140) / 150)]
    const [left, top] = [x - 130 - 80 * column, y - 140 - 150 * row]
    const isPatch = column >= 0 && column < 8 && row >= 0 && row < 3 && left < 40 && top < 90
    return 0.8 * 10 ** -(isPatch ? 0.2 * (column + 1) * ((row + 1) / 3) : 0)
  })
  await json(['read', photo, ...OF_PHOTO, '--out', at('patches.tif')])
  const densities = await mapAt(at('patches.tif'))
  for (const [column, row] of [
    [0, 2],
    [3, 2],
    [5, 1],
    [7, 0],
  ] as const) {
    const [x, y] = [130 + 80 * column + 20 - 100, 140 + 150 * row + 45 - 100]
    near(densities[y * 700 + x] ?? 0, 0.2 * (column + 1) * ((row + 1) / 3), {
      within: 0.02,
      because: 'steps of 8 bits',
    })
  }
})

describe('what is no photo of a film gets one sentence', () => {
  const cases: readonly (readonly [string, (x: number, y: number) => number, string])[] = [
    ['a black picture', () => 0, 'lit from behind'],
    ['a white picture', () => 1, 'plain white'],
    ['an even light', () => 0.5, 'nothing but light'],
    [
      'a blurred face',
      (x, y) => 0.15 + 0.4 * Math.exp(-(((x - 450) / 160) ** 2) - ((y - 340) / 200) ** 2),
      'nothing but light',
    ],
  ]
  test.each(cases)('%s', async (name, light, words) => {
    const photo = await photoOf(`${name}.png`, light)
    const answer = await refused(['read', photo, ...OF_PHOTO, '--out', at('none.tif')])
    expect(answer.exit).toBe(2)
    expect(answer.message).toContain(words)
    expect(() => readFileSync(at('none.tif'))).toThrow('ENOENT')
  })

  test('without mat and corners', async () => {
    const { exit, message } = await refused(['read', PHOTO, '--out', at('none.tif')])
    expect(exit).toBe(2)
    expect(message).toContain('No reading mat is seen')
  })
})

test.each([
  ['100,100,800,100', '140x100', 'eight numbers'],
  ['100,100,100,600,800,600,800,100', '140x100', 'clockwise'],
  ['100,100,300,100,500,100,100,600', '140x100', 'clockwise'],
  ['100,100,1800,100,800,600,100,600', '140x100', 'outside the photo'],
  ['100,100,120,100,120,120,100,120', '140x100', 'too few'],
  ['100,100,800,100,800,600,100,600', '140', 'width and height'],
])('corners %s of a sheet of %s mm are refused: %s', async (corners, size, words) => {
  const photo = await photoOf('even.png', () => 0.5)
  const answer = await refused([
    'read',
    photo,
    '--corners',
    corners,
    '--size-mm',
    size,
    '--out',
    at('none.tif'),
  ])
  expect(answer.exit).toBe(2)
  expect(answer.message).toContain(words)
})
