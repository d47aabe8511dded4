import { expect, test } from 'vitest'
import { openArtwork } from './artwork.ts'
import { openRaster, square } from './badLayers.testing.ts'
import { temporary } from './temporary.testing.ts'

const { put } = temporary()

/** The pixels of a picture of 30 by 20, and of its plates. */
async function pixelsOf(file: string, inks: readonly string[] = []) {
  const opened = await openArtwork(file)
  const size = { widthPx: 30, heightPx: 20, keepsCmyk: false, inks }
  const artwork = await opened.samples(size)
  const all: number[] = []
  for await (const { samples } of artwork.bands()) all.push(...samples)
  const passing = []
  for (const { plate, grey } of artwork.passing ?? []) {
    const tones: number[] = []
    for await (const { samples } of grey.bands()) tones.push(...samples)
    passing.push({ plate, at: (x: number, y: number) => tones[30 * y + x] })
  }
  await opened.close()
  return {
    widthMm: opened.widthMm,
    warnings: opened.warnings,
    at: (x: number, y: number) => all.slice(3 * (30 * y + x), 3 * (30 * y + x) + 3),
    passing,
  }
}

const layers = async () => ({
  'data/red.png': await square([255, 0, 0, 1], 20),
  'data/blue.png': await square([0, 0, 255, 1]),
  'data/half.png': await square([0, 0, 0, 0.5]),
})

test('oracle openraster: the first layer is the topmost, at its place, as clear as it is', async () => {
  const list =
    '<layer src="data/blue.png" x="15" y="5" opacity="0.5"/><layer src="data/red.png" x="-5" y="0"/>'
  const { at, widthMm, warnings } = await pixelsOf(put('a.ora', openRaster(list, await layers())))
  expect(at(2, 2)).toEqual([255, 0, 0])
  expect(at(14, 19)).toEqual([255, 0, 0])
  expect(at(28, 18)).toEqual([255, 255, 255])
  // half of blue on white
  expect(at(20, 10).map((value) => Math.round(value / 8))).toEqual([16, 16, 32])
  expect(widthMm).toBeCloseTo((30 * 25.4) / 72, 9)
  expect(warnings).toEqual([])
})

test('oracle openraster: groups are laid as one, what is hidden is not, and multiply multiplies', async () => {
  const group =
    '<stack opacity="0.5"><layer src="data/blue.png"/><layer src="data/red.png"/></stack>'
  const hidden = '<layer src="data/red.png" visibility="hidden"/>'
  const { at } = await pixelsOf(put('b.ora', openRaster(`${hidden}${group}`, await layers())))
  // the red under the blue does not shine through: the group fades as one
  expect(at(2, 2).map((value) => Math.round(value / 8))).toEqual([16, 16, 32])
  expect(at(15, 15).map((value) => Math.round(value / 8))).toEqual([32, 16, 16])
  const multiplied =
    '<layer src="data/blue.png" composite-op="svg:multiply"/><layer src="data/red.png"/>'
  const { at: dark } = await pixelsOf(put('c.ora', openRaster(multiplied, await layers())))
  expect(dark(2, 2)).toEqual([0, 0, 0])
})

test('a layer named like an ink is that ink’s own, whatever its colour, and no part of the rest', async () => {
  const list = '<layer name="Red " src="data/half.png"/><layer src="data/blue.png" x="15"/>'
  const { at, passing } = await pixelsOf(put('d.ora', openRaster(list, await layers())), [
    'black',
    'red',
  ])
  expect(at(2, 2)).toEqual([255, 255, 255])
  expect(at(18, 2)).toEqual([0, 0, 255])
  expect(passing.map(({ plate }) => plate)).toEqual([1])
  expect(Math.abs((passing[0]?.at(2, 2) ?? 0) - 127)).toBeLessThanOrEqual(1)
  expect(passing[0]?.at(18, 2)).toBe(255)
})
