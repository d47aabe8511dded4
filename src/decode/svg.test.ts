import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { FONTS, type FontName, fontFiles } from './fonts.ts'
import { writePicture } from './picture.ts'
import { drawSvg } from './svg.ts'
import { temporary } from './temporary.testing.ts'

const { path } = temporary()
const svg = (inside: string, [width, height] = [200, 50]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}">${inside}</svg>`

function inkOf({ data }: { data: Uint8Array }): number {
  let ink = 0
  for (let at = 3; at < data.length; at += 4) ink += data[at] ?? 0
  return ink / 255
}

describe('drawing', () => {
  test('a half clear colour keeps its colour and its alpha', async () => {
    const rect = '<rect width="200" height="50" fill="rgb(100,50,200)" fill-opacity="0.5"/>'
    const { data, width, height } = await drawSvg(svg(rect), { widthPx: 40 })
    expect([width, height, data.length]).toEqual([40, 10, 1600])
    // 200 · 128/255 is 100 in whole numbers, and that gives back 199.
    expect([...data.subarray(800, 804)]).toEqual([100, 50, 199, 128])
  })

  test.each(Object.keys(FONTS) as FontName[])(
    'letters in %s come from its own file',
    async (name) => {
      const { family, weight } = FONTS[name]
      const letters = `font-family="${family}" font-weight="${weight}" font-size="36"`
      const word = svg(`<text x="5" y="38" ${letters}>HM 80</text>`)
      const own = await drawSvg(word, { widthPx: 400, fonts: [name] })
      expect(inkOf(own)).toBeGreaterThan(1000)
      expect(await drawSvg(word, { widthPx: 400 })).toEqual(own)
      for (const other of (Object.keys(FONTS) as FontName[]).filter((of) => of !== name)) {
        const { family, weight } = FONTS[other]
        const words = word.replace(
          /family="[^"]+" font-weight="\d+"/,
          `family="${family}" font-weight="${weight}"`,
        )
        expect((await drawSvg(words, { widthPx: 400 })).data).not.toEqual(own.data)
      }
    },
  )

  test('the unpacked fonts are fonts: an sfnt head, tables inside the file', async () => {
    for (const file of await fontFiles(['text', 'bold text', 'signs'])) {
      const font = readFileSync(file)
      expect(font.readUInt32BE(0)).toBe(0x00010000)
      for (let table = 0; table < font.readUInt16BE(4); table++) {
        const end = font.readUInt32BE(20 + 16 * table) + font.readUInt32BE(24 + 16 * table)
        expect(end).toBeLessThanOrEqual(font.length)
      }
    }
  })

  test('what refers outside itself is refused', async () => {
    for (const href of ['href="/etc/passwd"', "xlink:href='http://a.b/c.png'", 'href = "a.png"']) {
      await expect(drawSvg(svg(`<image ${href}/>`), { widthPx: 9 })).rejects.toThrow(
        'no references',
      )
    }
    await expect(drawSvg(svg('<use href="#a"/>'), { widthPx: 9 })).resolves.toBeDefined()
    await expect(drawSvg(svg(''), { widthPx: 0 })).rejects.toThrow('widthPx: expected')
  })
})

describe('a picture for people', () => {
  test('is the pixels with the drawing over them, at its size', async () => {
    const [widthPx, heightPx] = [40, 20]
    const rgb = new Uint8Array(3 * widthPx * heightPx)
    for (let at = 0; at < rgb.length; at += 3) rgb.set([230, 190, 40], at)
    const overlaySvg = svg(
      '<rect x="20" width="20" height="10" fill="#104060" fill-opacity="1"/>',
      [40, 20],
    )
    const file = path('people.png')
    const picture = { rgb, widthPx, heightPx, pixelsPerMm: 12, overlaySvg }
    await writePicture(file, picture, { force: false })
    const head = await sharp(file).metadata()
    expect([head.format, head.channels, head.width, head.height]).toEqual(['png', 3, 40, 20])
    expect(head.density).toBe(305) // 12 per mm are 304.8 an inch, which sharp rounds
    const pixels = await sharp(file).raw().toBuffer()
    const at = (x: number, y: number): number[] => [
      ...pixels.subarray(3 * (y * 40 + x), 3 * (y * 40 + x) + 3),
    ]
    expect([at(5, 5), at(30, 5), at(30, 15)]).toEqual([
      [230, 190, 40],
      [16, 64, 96],
      [230, 190, 40],
    ])
    await expect(writePicture(file, picture, { force: false })).rejects.toThrow('is already there')
  })

  test('of the wrong size is refused', async () => {
    const of = { widthPx: 4, heightPx: 2, pixelsPerMm: 10, overlaySvg: svg('', [4, 2]) }
    const write = (rgb: Uint8Array, overlaySvg = of.overlaySvg): Promise<void> =>
      writePicture(path('no.png'), { ...of, rgb, overlaySvg }, { force: false })
    await expect(write(new Uint8Array(23))).rejects.toThrow('rgb: expected 24 bytes, got 23')
    await expect(write(new Uint8Array(24), svg('', [4, 4]))).rejects.toThrow(
      'overlaySvg: expected 2 px',
    )
  })
})
