import { createRequire } from 'node:module'
import sharp from 'sharp'
import { expect, test } from 'vitest'
import { crc32 } from './checksum.ts'
import { type GreyBand, writeGreyPng } from './greyPng.ts'
import { memorySink, testDeflater } from './sink.testing.ts'

type Pngjs = {
  PNG: {
    sync: {
      read: (bytes: Buffer) => { width: number; height: number; depth: number; data: Buffer }
    }
  }
}
const { PNG } = createRequire(import.meta.url)('pngjs') as Pngjs

const WIDTH = 31
const HEIGHT = 17
const samples = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, at) => (at * 41) % 256)

async function written(
  rows: number,
  of: { heightPx?: number; pixelUm?: number } = {},
): Promise<Buffer> {
  function* bands(): Generator<GreyBand> {
    for (let top = 0; top < HEIGHT; top += rows) {
      const end = Math.min(HEIGHT, top + rows)
      yield { rows: end - top, samples: samples.subarray(top * WIDTH, end * WIDTH) }
    }
  }
  const { sink, bytes } = memorySink()
  const picture = { widthPx: WIDTH, heightPx: HEIGHT, pixelUm: 25400 / 720, ...of, bands: bands() }
  await writeGreyPng(picture, { sink, deflater: testDeflater })
  return Buffer.from(bytes())
}

test('pngjs, which checks each checksum, reads the same pixels', async () => {
  const picture = PNG.sync.read(await written(4))
  expect([picture.width, picture.height, picture.depth]).toEqual([WIDTH, HEIGHT, 8])
  expect(picture.data.filter((_, at) => at % 4 === 1)).toEqual(Buffer.from(samples))
})

test('libpng reads the same pixels, one channel and the resolution', async () => {
  const bytes = await written(HEIGHT)
  const head = await sharp(bytes).metadata()
  expect([head.space, head.channels, head.density]).toEqual(['b-w', 1, 720])
  const raw = await sharp(bytes).toColourspace('b-w').raw().toBuffer()
  expect(new Uint8Array(raw)).toEqual(samples)
})

test('the bytes do not depend on the run', async () => {
  expect(await written(3)).toEqual(await written(3))
})

test('rows that do not fill the picture are refused', async () => {
  await expect(written(4, { heightPx: 18 })).rejects.toThrow('expected 18 rows, got 17')
  await expect(written(4, { heightPx: 16 })).rejects.toThrow('do not fit 16 rows')
  await expect(written(4, { pixelUm: Number.NaN })).rejects.toThrow('pixelUm: expected')
})

test('oracle png3: the checksum of an empty IEND is AE 42 60 82', () => {
  expect(crc32(Buffer.from('IEND'))).toBe(0xae426082)
})
