import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import type { Bilevel } from './bilevel.ts'
import { bandsOf, type Pixels, packedRows, type Size, seeded } from './bits.testing.ts'
import type { FilmPage } from './filmPage.ts'
import { FILM_INKS, type FilmInk, type FilmPdfOutput, writeFilmPdf } from './filmPdf.ts'
import { byPdfium, byPdfjs, byQpdf, checkedByQpdf, imagesByQpdf } from './pdfReaders.testing.ts'
import { testDeflater } from './sink.testing.ts'

type Output = Omit<FilmPdfOutput, 'sink'>

async function written(pages: readonly FilmPage[], output: Output = {}): Promise<Uint8Array> {
  const parts: Uint8Array[] = []
  const write = (bytes: Uint8Array): Promise<void> => {
    parts.push(bytes.slice())
    return Promise.resolve()
  }
  await writeFilmPdf(pages, { sink: { write }, ...output })
  return Uint8Array.from(Buffer.concat(parts))
}

type Picture = Size & Readonly<{ rows: Uint8Array; pixelUm: number; rowsEach?: number }>

function filmOf(picture: Picture): Bilevel {
  return { ...picture, bands: bandsOf(picture.rows, picture, picture.rowsEach ?? 64) }
}

/** A page that is the film and nothing else. */
function pageOf(picture: Picture): FilmPage {
  return {
    widthMm: (picture.widthPx * picture.pixelUm) / 1000,
    heightMm: (picture.heightPx * picture.pixelUm) / 1000,
    items: [{ kind: 'bitmap', film: filmOf(picture), xMm: 0, yMm: 0 }],
  }
}

function pictureOf(size: Size, black: Pixels, pixelUm: number = 25400 / 720): Picture {
  return { ...size, rows: packedRows(size, black), pixelUm }
}

const noise = (seed: number): Pixels => {
  const next = seeded(seed)
  return () => next() < 0.5
}

/** What pdfium draws at the film's own pixels, packed; grey would be neither. */
async function drawn(pdf: Uint8Array, { widthPx, heightPx }: Size): Promise<Uint8Array> {
  const { grey, neutral } = await byPdfium(pdf, { widthPx, heightPx })
  expect(neutral).toBe(true)
  expect(grey.filter((value) => value !== 0 && value !== 255).length, 'grey pixels').toBe(0)
  return packedRows({ widthPx, heightPx }, (x, y) => grey[y * widthPx + x] === 0)
}

/** The bits of the images as pdf.js decodes them, one under another, packed. */
async function decoded(pdf: Uint8Array, size: Size): Promise<Uint8Array> {
  const { images } = await byPdfjs(pdf)
  expect(images.map(({ kind, width }) => [kind, width])).toEqual(
    images.map(() => [2, size.widthPx]),
  )
  const rgb = Buffer.concat(images.map(({ data }) => data))
  expect(rgb.length).toBe(3 * size.widthPx * size.heightPx)
  return packedRows(size, (x, y) => rgb[3 * (y * size.widthPx + x)] === 0)
}

const filtersOf = async (pdf: Uint8Array): Promise<readonly unknown[]> =>
  (await imagesByQpdf(pdf)).map((dict) => dict['/Filter'])

const LARGE = { widthPx: 4001, heightPx: 3001 }
const dots: Pixels = (x, y) => Math.cos(x / 7) + Math.cos((y + x / 9) / 7) > 0.3
const larger = [
  ['dots in Group 4', pictureOf(LARGE, dots), { deflater: testDeflater }, '/CCITTFaxDecode'],
  ['noise by Flate', pictureOf(LARGE, noise(3)), { deflater: testDeflater }, '/FlateDecode'],
] as const

describe.each(larger)('4001 by 3001 pixels, %s', async (_, picture, output, filter) => {
  const pdf = await written([pageOf(picture)], output)

  test('pdfium draws its bits and no grey, and measures it', async () => {
    expect(Buffer.compare(await drawn(pdf, LARGE), picture.rows)).toBe(0)
    const { width, height, pages } = await byPdfium(pdf, { widthPx: 8, heightPx: 6 })
    expect(pages).toBe(1)
    near(width, 400.1, { within: 2e-5, because: '32-bit floats' })
    near(height, 300.1, { within: 2e-5, because: '32-bit floats' })
  })

  test('pdf.js decodes its bits and reads its box', async () => {
    expect(Buffer.compare(await decoded(pdf, LARGE), picture.rows)).toBe(0)
    expect((await byPdfjs(pdf)).view).toEqual([0, 0, 400.1, 300.1])
  })

  test('qpdf finds it sound, and one image', async () => {
    expect(await checkedByQpdf(pdf)).toBe(0)
    const [image, ...others] = await imagesByQpdf(pdf)
    expect(others).toEqual([])
    expect(image).toMatchObject({ '/Width': 4001, '/Height': 3001, '/BitsPerComponent': 1 })
    expect(image?.['/Filter']).toBe(filter)
    if (filter === '/FlateDecode') return
    const parameters = { '/K': -1, '/Columns': 4001, '/Rows': 3001, '/BlackIs1': true }
    expect(image?.['/DecodeParms']).toEqual(parameters)
  })

  test('the bytes do not depend on how the rows came', async () => {
    for (const rowsEach of [1, 3001]) {
      const other = await written([pageOf({ ...picture, rowsEach })], output)
      expect(Buffer.compare(other, pdf)).toBe(0)
    }
  })
})

test('qpdf’s check would see a wrong table and a cut end', async () => {
  const pdf = await written([pageOf(pictureOf({ widthPx: 99, heightPx: 88 }, dots))])
  expect(await checkedByQpdf(pdf)).toBe(0)
  const text = Buffer.from(pdf).toString('latin1')
  const moved = text.replace(
    /(xref\n0 \d+\n0+ 65535 f \n\d{9})(\d)/,
    (_, head: string, digit: string) => `${head}${(Number(digit) + 1) % 10}`,
  )
  expect(moved).not.toBe(text)
  expect(await checkedByQpdf(Buffer.from(moved, 'latin1'))).not.toBe(0)
  expect(await checkedByQpdf(pdf.subarray(0, pdf.length - 30))).not.toBe(0)
})

describe('how bits are coded', () => {
  test('blank rows before noise do not hide it, whatever their number', async () => {
    const next = seeded(9)
    const size = { widthPx: 801, heightPx: 2600 }
    const picture = pictureOf(size, (_, y) => y > 2000 && next() < 0.5)
    const pdf = await written([pageOf(picture)], { deflater: testDeflater })
    expect(await filtersOf(pdf)).toEqual(['/FlateDecode'])
    expect(Buffer.compare(await drawn(pdf, size), picture.rows)).toBe(0)
    expect(Buffer.compare(await decoded(pdf, size), picture.rows)).toBe(0)
  })

  test('dots that go on past what is tried first', async () => {
    const size = { widthPx: 30_011, heightPx: 1190 } // 4.5 MB of bits
    const { rows } = pictureOf({ ...size, heightPx: 70 }, dots)
    const many = Buffer.concat(Array.from({ length: 17 }, () => rows))
    const picture = { ...size, rows: many, pixelUm: 20 }
    const pdf = await written([pageOf(picture)], { deflater: testDeflater })
    expect(await filtersOf(pdf)).toEqual(['/CCITTFaxDecode'])
    expect(Buffer.compare(await drawn(pdf, size), picture.rows)).toBe(0)
  })

  test('noise that goes on past it', async () => {
    const size = { widthPx: 30_008, heightPx: 1190 }
    const next = seeded(2)
    const rows = new Uint8Array((size.widthPx / 8) * size.heightPx).map(() => 256 * next())
    const picture = { ...size, rows, pixelUm: 20 }
    const pdf = await written([pageOf(picture)], { deflater: testDeflater })
    expect(await filtersOf(pdf)).toEqual(['/FlateDecode'])
    expect(Buffer.compare(await drawn(pdf, size), picture.rows)).toBe(0)
  })

  test('a film with nothing on it, and one with everything', async () => {
    for (const black of [false, true]) {
      const picture = pictureOf({ widthPx: 131, heightPx: 70 }, () => black)
      const pdf = await written([pageOf(picture)], { deflater: testDeflater })
      expect(Buffer.compare(await drawn(pdf, picture), picture.rows)).toBe(0)
    }
  })

  test('noise goes in Group 4 where there is no compressor', async () => {
    const picture = pictureOf({ widthPx: 501, heightPx: 301 }, noise(6))
    const pdf = await written([pageOf(picture)])
    expect(await filtersOf(pdf)).toEqual(['/CCITTFaxDecode'])
    expect(Buffer.compare(await drawn(pdf, picture), picture.rows)).toBe(0)
    expect(Buffer.compare(await decoded(pdf, picture), picture.rows)).toBe(0)
  })

  test('invariant: pdfium draws the bits of a film of any size and pixel', async () => {
    const films = fc.record({
      widthPx: fc.integer({ min: 60, max: 20_000 }),
      heightPx: fc.integer({ min: 60, max: 100 }),
      pixelUm: fc.double({ min: 18, max: 60, noNaN: true }),
      seed: fc.nat(),
    })
    await fc.assert(
      fc.asyncProperty(films, async ({ widthPx, heightPx, pixelUm, seed }) => {
        const picture = pictureOf({ widthPx, heightPx }, noise(seed), pixelUm)
        const pdf = await written([pageOf(picture)])
        expect(Buffer.compare(await drawn(pdf, picture), picture.rows)).toBe(0)
      }),
      { seed: 12, numRuns: 15 },
    )
  })

  test('past 65,000 rows there are two images without a seam', async () => {
    const size = { widthPx: 21, heightPx: 66_003 }
    const picture = pictureOf(size, (x, y) => (x * 31 + y * 7 + ((x * y) >> 4)) % 11 < 4, 70)
    const pdf = await written([pageOf(picture)], { deflater: testDeflater })
    expect(await checkedByQpdf(pdf)).toBe(0)
    expect((await imagesByQpdf(pdf)).map((dict) => dict['/Height'])).toEqual([65_000, 1003])
    expect(Buffer.compare(await drawn(pdf, size), picture.rows)).toBe(0)
    expect(Buffer.compare(await decoded(pdf, size), picture.rows)).toBe(0)
  })

  test('past 65,535 columns Flate is taken', async () => {
    const size = { widthPx: 66_009, heightPx: 17 }
    const picture = pictureOf(size, dots, 70)
    const pdf = await written([pageOf(picture)], { deflater: testDeflater })
    expect(await filtersOf(pdf)).toEqual(['/FlateDecode'])
    expect(Buffer.compare(await drawn(pdf, size), picture.rows)).toBe(0)
  })

  test('bits past the width do not count', async () => {
    for (const black of [dots, noise(4)]) {
      const picture = pictureOf({ widthPx: 77, heightPx: 60 }, black)
      const rows = picture.rows.map((byte, at) => (at % 10 === 9 ? byte | 0b111 : byte))
      const pdf = await written([pageOf(picture)], { deflater: testDeflater })
      const dirty = await written([pageOf({ ...picture, rows })], { deflater: testDeflater })
      expect(Buffer.compare(dirty, pdf)).toBe(0)
    }
  })
})

describe.each(Object.keys(FILM_INKS) as FilmInk[])('ink %s', async (ink) => {
  const picture = pictureOf({ widthPx: 300, heightPx: 200 }, dots)
  const pdf = await written([pageOf(picture)], { ink })

  test('is black on clear', async () => {
    expect(Buffer.compare(await drawn(pdf, picture), picture.rows)).toBe(0)
  })

  test('is named so', async () => {
    const spaces = (await byQpdf(pdf)).map(({ value }) => value)
    const separations = spaces.filter((value) => Array.isArray(value) && value[0] === '/Separation')
    const names = { black: '/Black', all: '/All', grey: undefined }
    expect(separations.map((value) => (value as unknown[])[1])).toEqual(
      ink === 'grey' ? [] : [names[ink]],
    )
  })
})

describe('size', () => {
  test('invariant: pages have the size asked for, to a hundred thousandth of a mm', async () => {
    const sides = fc.double({ min: 1, max: 5080, noNaN: true })
    await fc.assert(
      fc.asyncProperty(sides, sides, async (widthMm, heightMm) => {
        const { view } = await byPdfjs(await written([{ widthMm, heightMm, items: [] }]))
        const inMm = view.map((points) => (points / 72) * 25.4)
        const because = 'six decimals of a point'
        near(inMm[2] ?? 0, widthMm, { within: 1e-5, because })
        near(inMm[3] ?? 0, heightMm, { within: 1e-5, because })
        expect(view.slice(0, 2)).toEqual([0, 0])
      }),
      { seed: 10, numRuns: 60 },
    )
  })

  test('oracle iso216: A3 is 841.8898 by 1190.5512 points', async () => {
    const { view } = await byPdfjs(await written([{ widthMm: 297, heightMm: 420, items: [] }]))
    expect(view).toEqual([0, 0, 841.889764, 1190.551181])
  })

  test('the trim is where it was asked, from the top left', async () => {
    const trim = { xMm: 10, yMm: 20, widthMm: 100, heightMm: 150 }
    const pdf = await written([{ widthMm: 127, heightMm: 254, trim, items: [] }])
    const { trim: found } = await byPdfium(pdf, { widthPx: 9, heightPx: 9 })
    const expected = { left: 10, bottom: 84, right: 110, top: 234 }
    for (const side of ['left', 'bottom', 'right', 'top'] as const) {
      near((found[side] / 72) * 25.4, expected[side], { within: 2e-5, because: '32-bit floats' })
    }
  })

  test('a page asks to be printed unscaled', async () => {
    const objects = await byQpdf(await written([{ widthMm: 50, heightMm: 40, items: [] }]))
    const catalog = objects.map(({ value }) => value as Record<string, unknown>)
    expect(catalog.find((value) => value?.['/Type'] === '/Catalog')).toMatchObject({
      '/ViewerPreferences': { '/PrintScaling': '/None' },
    })
  })
})

test('one file, several pages, each with its own size and pictures', async () => {
  const first = pictureOf({ widthPx: 90, heightPx: 60 }, dots)
  const second = pictureOf({ widthPx: 50, heightPx: 70 }, (x) => x % 3 === 0, 100)
  const pdf = await written([pageOf(first), pageOf(second)])
  expect(await checkedByQpdf(pdf)).toBe(0)
  const found = await byPdfjs(pdf, { page: 1 })
  expect(found.pages).toBe(2)
  near((found.view[3] ?? 0) * (25.4 / 72), 7, { within: 1e-6, because: 'six decimals' })
  const { grey } = await byPdfium(pdf, { page: 1, ...second })
  expect(
    Buffer.compare(
      packedRows(second, (x, y) => grey[50 * y + x] === 0),
      second.rows,
    ),
  ).toBe(0)
})

describe('what the file says of itself', () => {
  const page = pageOf(pictureOf({ widthPx: 60, heightPx: 50 }, dots))
  const again = (black: Pixels): FilmPage => pageOf(pictureOf({ widthPx: 60, heightPx: 50 }, black))

  test('nothing of a time unless given', async () => {
    const { info } = await byPdfjs(await written([page]))
    expect([info['CreationDate'], info['ModDate'], info['Title'], info['Producer']]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ])
  })

  test('its title in any script and the time that was given', async () => {
    const given = { title: 'Fähre – 渡し船', madeAt: '2026-03-14T09:26:53Z' }
    const { info } = await byPdfjs(await written([again(dots)], given))
    expect(info['Title']).toBe('Fähre – 渡し船')
    expect(info['CreationDate']).toBe('D:20260314092653Z')
    await expect(written([again(dots)], { madeAt: 'today' })).rejects.toThrow('madeAt: expected')
  })

  test('an identifier that changes with the content alone', async () => {
    const { fingerprint } = await byPdfjs(await written([again(dots)]))
    expect(fingerprint).toMatch(/^[0-9a-f]{32}$/)
    expect((await byPdfjs(await written([again(dots)]))).fingerprint).toBe(fingerprint)
    const other: Pixels = (x, y) => dots(x, y) !== (x === 59 && y === 49)
    expect((await byPdfjs(await written([again(other)]))).fingerprint).not.toBe(fingerprint)
  })
})

test('what cannot be is refused by name', async () => {
  const film = { ...pictureOf({ widthPx: 16, heightPx: 3 }, dots), bands: [] }
  const bad: readonly (readonly [readonly FilmPage[], string])[] = [
    [[], 'pages: expected at least one'],
    [[{ widthMm: 0, heightMm: 9, items: [] }], 'widthMm: expected 1 to 5080 mm, got 0'],
    [[{ widthMm: 90, heightMm: 6000, items: [] }], 'heightMm: expected'],
    [
      [
        {
          widthMm: 90,
          heightMm: 90,
          trim: { xMm: 9, yMm: 9, widthMm: 90, heightMm: 9 },
          items: [],
        },
      ],
      'trim’s right: expected 9 to 90',
    ],
    [
      [{ widthMm: 9, heightMm: 9, items: [{ kind: 'bitmap', film, xMm: Number.NaN, yMm: 0 }] }],
      'xMm: expected',
    ],
    [
      [{ widthMm: 9, heightMm: 9, items: [{ kind: 'bitmap', film, xMm: 0, yMm: 0 }] }],
      'expected 3 rows, got 0',
    ],
    [[{ widthMm: 9, heightMm: 9, items: [{ kind: 'fill', path: [] }] }], 'path: expected a move'],
  ]
  for (const [pages, words] of bad) await expect(written(pages)).rejects.toThrow(words)
})
