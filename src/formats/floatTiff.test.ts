import fc from 'fast-check'
import { fromArrayBuffer } from 'geotiff'
import sharp from 'sharp'
import { decode } from 'tiff'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { sourceOf } from './bytes.ts'
import { type DensityBand, type DensityMapOutput, writeFloatTiff } from './floatTiff.ts'
import { rationalOf } from './rational.ts'
import { readResolution } from './resolution.ts'
import { memorySink, testDeflater } from './sink.testing.ts'

const WIDTH = 37
const HEIGHT = 23
const densities = Float32Array.from({ length: WIDTH * HEIGHT }, (_, at) =>
  Math.fround(at * 0.00431 - 0.1),
)

function* inBands(samples: Float32Array, widthPx: number, rows: number): Generator<DensityBand> {
  const heightPx = samples.length / widthPx
  for (let top = 0; top < heightPx; top += rows) {
    const end = Math.min(heightPx, top + rows)
    yield { rows: end - top, samples: samples.subarray(top * widthPx, end * widthPx) }
  }
}

async function written(
  of: Omit<DensityMapOutput, 'sink'> & { pixelUm?: number; rows?: number },
): Promise<Uint8Array<ArrayBuffer>> {
  const { pixelUm = 25400 / 720, rows = 5, ...output } = of
  const { sink, bytes } = memorySink()
  const bands = inBands(densities, WIDTH, rows)
  await writeFloatTiff({ widthPx: WIDTH, heightPx: HEIGHT, pixelUm, bands }, { sink, ...output })
  return bytes()
}

describe.each([
  ['plain', {}],
  ['deflated', { deflater: testDeflater }],
  ['BigTIFF', { big: true }],
  ['deflated BigTIFF', { big: true, deflater: testDeflater }],
] as const)('%s', (_, output) => {
  test('geotiff reads the same bits, size and resolution', async () => {
    const image = await (await fromArrayBuffer((await written(output)).buffer)).getImage()
    const rasters = await image.readRasters()
    expect([image.getWidth(), image.getHeight(), image.getSamplesPerPixel()]).toEqual([
      WIDTH,
      HEIGHT,
      1,
    ])
    expect(rasters[0]).toEqual(densities)
    const directory = image.fileDirectory
    const x: unknown = await directory.loadValue('XResolution')
    expect(Array.from(x as Uint32Array)).toEqual([720, 1])
    expect(await directory.loadValue('ResolutionUnit')).toBe(2)
  })

  test('libtiff reads the same bits, size and resolution', async () => {
    const bytes = await written(output)
    const head = await sharp(bytes).metadata()
    const kept = ['width', 'height', 'channels', 'depth', 'density', 'resolutionUnit'] as const
    expect(kept.map((key) => head[key])).toEqual([WIDTH, HEIGHT, 1, 'float', 720, 'inch'])
    const raw = await sharp(bytes).toColourspace('b-w').raw({ depth: 'float' }).toBuffer()
    expect(new Uint8Array(raw)).toEqual(new Uint8Array(densities.buffer))
  })
})

describe.each([
  ['plain', {}],
  ['deflated', { deflater: testDeflater }],
] as const)('%s', (_, output) => {
  test('the tiff package reads the same bits, size and resolution', async () => {
    const [page] = decode(await written(output))
    expect(page?.data).toEqual(densities)
    expect([page?.width, page?.height, page?.xResolution, page?.resolutionUnit]).toEqual([
      WIDTH,
      HEIGHT,
      720,
      2,
    ])
  })

  test('the bytes do not depend on how the rows came', async () => {
    expect(await written({ ...output, rows: 1 })).toEqual(await written({ ...output, rows: 23 }))
  })
})

test('a map of several strips is whole', async () => {
  const widthPx = 30_011
  const samples = Float32Array.from({ length: widthPx * 19 }, (_, at) => (at % 977) / 250)
  const { sink, bytes } = memorySink()
  const bands = inBands(samples, widthPx, 4)
  await writeFloatTiff(
    { widthPx, heightPx: 19, pixelUm: 12.7, bands },
    { sink, deflater: testDeflater },
  )
  const image = await (await fromArrayBuffer(bytes().buffer)).getImage()
  expect((await image.readRasters())[0]).toEqual(samples)
})

test('370 pixels per cm, 939.8 per inch, stand per cm', async () => {
  const [page] = decode(await written({ pixelUm: 10000 / 370 }))
  expect([page?.xResolution, page?.resolutionUnit]).toEqual([370, 3])
})

test('invariant: the resolution gives back the pixel, to 13 digits', async () => {
  const sizes = fc.double({ min: 1, max: 600, noNaN: true })
  await fc.assert(
    fc.asyncProperty(sizes, async (pixelUm) => {
      const resolution = await readResolution(sourceOf(await written({ pixelUm })))
      const back = 1000 / (resolution?.horizontalPerMm ?? Number.NaN)
      near(back / pixelUm, 1, { within: 1e-13, because: 'fractions of 32-bit numbers' })
    }),
    { seed: 3, numRuns: 200 },
  )
})

test('the shortest fraction is found', () => {
  expect(rationalOf(720)).toEqual({ numerator: 720, denominator: 1 })
  expect(rationalOf(15000 / 127)).toEqual({ numerator: 15000, denominator: 127 })
  expect(rationalOf(0.3)).toEqual({ numerator: 3, denominator: 10 })
  expect(() => rationalOf(0)).toThrow('value: expected')
  expect(() => rationalOf(Number.NaN)).toThrow('got NaN')
})

test('rows that do not fill the map are refused', async () => {
  const write = (heightPx: number, pixelUm = 20): Promise<void> => {
    const bands = inBands(densities, WIDTH, 7)
    return writeFloatTiff({ widthPx: WIDTH, heightPx, pixelUm, bands }, memorySink())
  }
  await expect(write(24)).rejects.toThrow('expected 24 rows, got 23')
  await expect(write(20)).rejects.toThrow('do not fit 20 rows')
  await expect(write(23, 0)).rejects.toThrow('pixelUm: expected')
})
