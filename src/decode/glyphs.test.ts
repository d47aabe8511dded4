import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { writeFilmPdf } from '../formats/filmPdf.ts'
import type { Face } from '../formats/letters.ts'
import type { Path } from '../formats/pagePath.ts'
import { byPdfium } from '../formats/pdfReaders.testing.ts'
import { memorySink } from '../formats/sink.testing.ts'
import { FONTS } from './fonts.ts'
import { openLetters } from './glyphs.ts'
import { drawSvg } from './svg.ts'

const letters = await openLetters()

const SIZE = { widthMm: 120, heightMm: 16 }
const PX_PER_MM = 20
const PX = { widthPx: SIZE.widthMm * PX_PER_MM, heightPx: SIZE.heightMm * PX_PER_MM }
const AT = { sizeMm: 10, xMm: 4, yMm: 11 }

/** Darkness 0 … 255 of each pixel, as pdfium fills the outlines. */
async function filled(path: Path): Promise<Uint8Array> {
  const { sink, bytes } = memorySink()
  await writeFilmPdf([{ ...SIZE, items: [{ kind: 'fill', path }] }], { sink })
  const { grey } = await byPdfium(bytes(), PX)
  return grey.map((value) => 255 - value)
}

const FONT = { title: FONTS.signs, plain: FONTS.text, bold: FONTS['bold text'] } as const

/** The same as text, shaped and drawn by the drawing library from the font itself. */
async function asText(text: string, face: Face): Promise<Uint8Array> {
  const { family, weight } = FONT[face]
  const size = `viewBox="0 0 ${SIZE.widthMm} ${SIZE.heightMm}"`
  const set = `font-family="${family}" font-weight="${weight}" font-size="${AT.sizeMm}"`
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" ${size}><text x="${AT.xMm}" y="${AT.yMm}" ${set}>${text}</text></svg>`
  const { data } = await drawSvg(svg, { widthPx: PX.widthPx })
  return Uint8Array.from({ length: PX.widthPx * PX.heightPx }, (_, at) => data[4 * at + 3] ?? 0)
}

describe('outlines are where another shaper and renderer draws the letters', () => {
  test.each([
    ['plain', 'AVATAR To Wave, heron’s “marsh” – ok?'],
    ['bold', 'LTV reed. Yes: Type, fjord & Café'],
    ['title', 'Test film for doses, AVT go on'],
  ] as const)('%s: %s', async (face, text) => {
    const ours = await filled(letters.path(text, { face, ...AT }))
    const theirs = await asText(text.replace('&', '&amp;'), face)
    let [black, differing] = [0, 0]
    for (let at = 0; at < ours.length; at++) {
      if ((theirs[at] ?? 0) > 127) black += 1
      // a quarter of a pixel's darkness is what two ways to smooth an edge may differ by
      if (Math.abs((ours[at] ?? 0) - (theirs[at] ?? 0)) > 64) differing += 1
    }
    expect(black).toBeGreaterThan(10_000)
    expect(differing / black).toBeLessThan(0.002)
  })
})

test('a pair that is kerned is narrower than its two letters', () => {
  const width = (text: string): number => letters.widthMm(text, { face: 'plain', sizeMm: 1000 })
  // the font's own table takes 40 of 1000 units from A before V
  near(width('A') + width('V') - width('AV'), 40, { within: 1e-9, because: 'whole font units' })
})

test('all figures have one width, in both faces that numbers are set in', () => {
  for (const face of ['plain', 'bold'] as const) {
    const widths = [...'0123456789'].map((figure) => letters.widthMm(figure, { face, sizeMm: 5 }))
    expect(new Set(widths).size).toBe(1)
    expect(letters.widthMm('42', { face, sizeMm: 5 })).toBeCloseTo(2 * (widths[0] ?? 0), 9)
  }
})

test('a line ends, or has its middle, where it is told to', () => {
  const setting = { face: 'bold', sizeMm: 6 } as const
  const width = letters.widthMm('nine', setting)
  const first = (anchor: 'start' | 'middle' | 'end', xMm: number): unknown =>
    letters.path('nine', { ...setting, xMm, yMm: 3, anchor })[0]
  const start = first('start', 20) as { xMm: number; yMm: number }
  const middle = first('middle', 20 + width / 2) as typeof start
  const end = first('end', 20 + width) as typeof start
  for (const other of [middle, end]) {
    expect(other.xMm).toBeCloseTo(start.xMm, 9)
    expect(other.yMm).toBe(start.yMm)
  }
})

/** The rings of a path: how many, and how many parts each. */
const rings = (path: Path): readonly number[] =>
  path.reduce<number[]>((found, part) => {
    if (part.kind === 'move') return [...found, 1]
    return [...found.slice(0, -1), (found.at(-1) ?? 0) + 1]
  }, [])

describe('letters that a face does not have', () => {
  const set = (text: string, face: Face = 'plain'): Path =>
    letters.path(text, { face, sizeMm: 5, xMm: 0, yMm: 0 })

  test('are taken from the same letters for more languages', () => {
    for (const face of ['plain', 'bold', 'title'] as const) {
      for (const letter of ['ł', 'ő', 'ş', 'ž']) {
        expect(rings(set(letter, face)), letter).not.toEqual([5, 5])
        expect(set(letter, face).length).toBeGreaterThan(8)
      }
    }
  })

  test('and are else an empty box, never a failure', () => {
    for (const letter of ['Ж', '墨', '🎨', '\u{10ffff}']) expect(rings(set(letter))).toEqual([5, 5])
    expect(set('\u{200b}\u{ad}')).toEqual([])
    expect(set(' \t\n')).toEqual([])
    expect(set('')).toEqual([])
  })

  test('invariant: any text has outlines of finite numbers and a width', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 12 }),
        fc.constantFrom<Face>('title', 'plain', 'bold'),
        (text, face) => {
          expect(letters.widthMm(text, { face, sizeMm: 4 })).toBeGreaterThanOrEqual(0)
          for (const part of set(text, face)) {
            for (const value of Object.values(part)) {
              if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true)
            }
          }
        },
      ),
    )
  })
})

test('a size that cannot be is refused by name', () => {
  const path = (sizeMm: number): unknown =>
    letters.path('x', { face: 'plain', sizeMm, xMm: 0, yMm: 0 })
  expect(() => path(Number.NaN)).toThrow('sizeMm: expected 0.1 to 2000 mm')
  expect(() => path(0)).toThrow('got 0')
})
