import { writeFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { lightReader } from '../raster/photo/lightCode.ts'
import { openPhoto } from './photo.ts'
import { sharp } from './pixelLibrary.ts'
import { temporary } from './temporary.testing.ts'

const file = temporary().path

/** A grey sheet with a dark left half, as RGB. */
function sheet(light: number, dark: number): ReturnType<typeof sharp> {
  const [width, height] = [300, 200]
  const rgb = Uint8Array.from({ length: width * height * 3 }, (_, at) =>
    Math.floor(at / 3) % width < width / 2 ? dark : light,
  )
  return sharp(rgb, { raw: { width, height, channels: 3 } })
}

const at = (photo: Awaited<ReturnType<typeof openPhoto>>, x: number, y: number): number =>
  lightReader(photo.values)(y * photo.widthPx + x)

test('oracle srgb: stored 188 is half the light, 0.5029, and 254 up has no more room', async () => {
  await sheet(188, 255).png().toFile(file('half.png'))
  const photo = await openPhoto(file('half.png'))
  near(at(photo, 250, 100), 0.5029, { within: 0.0001, because: 'four digits' })
  expect(at(photo, 20, 100)).toBe(1)
})

test('a photo taken with the camera on its side stands upright', async () => {
  await sheet(200, 20).withMetadata({ orientation: 6 }).jpeg().toFile(file('side.jpg'))
  const photo = await openPhoto(file('side.jpg'))
  expect([photo.widthPx, photo.heightPx]).toEqual([200, 300])
  expect(at(photo, 100, 20)).toBeLessThan(0.02) // what was left is now at the top
  expect(at(photo, 100, 280)).toBeGreaterThan(0.5)
})

test('a 16-bit scan keeps its darks: a step of thirty in 65,535 is told', async () => {
  const grey = Uint16Array.from({ length: 300 * 300 * 3 }, (_, i) => (i < 135_000 ? 400 : 430))
  const raw = { width: 300, height: 300, channels: 3 } as const
  await sharp(grey, { raw }).toColourspace('rgb16').png().toFile(file('scan.png'))
  const photo = await openPhoto(file('scan.png'))
  expect(photo.bitDepth).toBe(16)
  near(at(photo, 5, 5), 400 / 65_535 / 12.92, {
    within: 2e-6,
    because: 'the straight foot of sRGB',
  })
  near(at(photo, 5, 290) / at(photo, 5, 5), 430 / 400, {
    within: 0.001,
    because: 'the same',
  })
})

test('grey JPEGs and clear PNGs are photos too', async () => {
  await sheet(188, 20).toColourspace('b-w').jpeg({ quality: 100 }).toFile(file('grey.jpg'))
  near(at(await openPhoto(file('grey.jpg')), 250, 100), 0.5029, {
    within: 0.01,
    because: 'JPEG',
  })
  const background = { r: 0, g: 0, b: 0, alpha: 0 }
  const clear = sharp({
    create: { width: 300, height: 300, channels: 4, background },
  })
  await clear.png().toFile(file('clear.png'))
  expect(at(await openPhoto(file('clear.png')), 9, 9)).toBe(1)
})

test('too small, cut off or no picture: a sentence each', async () => {
  await sharp({
    create: { width: 90, height: 90, channels: 3, background: '#888' },
  })
    .png()
    .toFile(file('small.png'))
  await expect(openPhoto(file('small.png'))).rejects.toThrow('too few to measure anything')
  await expect(openPhoto(file('nothing.jpg'))).rejects.toThrow('There is no file')
  const whole = await sheet(200, 20).jpeg().toBuffer()
  await writeFile(file('cut.jpg'), whole.subarray(0, whole.length / 2))
  await expect(openPhoto(file('cut.jpg'))).rejects.toThrow('broke off on its way')
})
