import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { Font, Glyph } from 'fontkit'
import { expectIn } from '../core/units/range.ts'
import type { Face, Letters, Setting, Standing } from '../formats/letters.ts'
import type { Path, PathPart } from '../formats/pagePath.ts'
import { FONTS } from './fonts.ts'

const OTHER_LATIN =
  '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext'
const BOLD = [FONTS['bold text'].file, `${OTHER_LATIN}-700-normal.woff`]

/** The files of each face: a letter that one does not have is looked for in the next. */
const FACES: Readonly<Record<Face, readonly string[]>> = {
  plain: [FONTS.text.file, `${OTHER_LATIN}-400-normal.woff`],
  bold: BOLD,
  title: [FONTS.signs.file, ...BOLD],
}

/** Figures of one width: columns of doses stand under each other. */
const FEATURES = ['tnum']

let opened: Promise<Letters> | null = null

/** The product's letters as outlines; their files are read once a process. */
export function openLetters(): Promise<Letters> {
  opened ??= readLetters()
  return opened
}

async function readLetters(): Promise<Letters> {
  const files = [...new Set(Object.values(FACES).flat())]
  const fonts = new Map(
    await Promise.all(files.map(async (file) => [file, await openFont(file)] as const)),
  )
  const shaped = (text: string, { face, sizeMm }: Setting): Shaped => {
    expectIn(sizeMm, { name: 'sizeMm', low: 0.1, high: 2000, unit: 'mm' })
    const own = FACES[face].flatMap((file) => fonts.get(file) ?? [])
    return shapedLine(text, { fonts: own, sizeMm })
  }
  return {
    path: (text, how) => standing(shaped(text, how), how),
    widthMm: (text, setting) => shaped(text, setting).widthMm,
  }
}

async function openFont(file: string): Promise<Font> {
  const { create } = await import('fontkit') // a server that draws no paper starts without it
  const font = create(await readFile(createRequire(import.meta.url).resolve(file)))
  if ('fonts' in font) throw new RangeError(`${file}: expected one font`)
  return font
}

/** A line from x = 0 on, on the baseline y = 0, y downward. */
type Shaped = Readonly<{ widthMm: number; path: Path }>

function shapedLine(
  text: string,
  { fonts, sizeMm }: Readonly<{ fonts: readonly Font[]; sizeMm: number }>,
): Shaped {
  const path: PathPart[] = []
  let widthMm = 0
  for (const { font, piece } of piecesOf(text, fonts)) {
    if (font === null) {
      for (const _ of piece) {
        path.push(...unknownBox(widthMm, sizeMm))
        widthMm += BOX.advance * sizeMm
      }
      continue
    }
    const scale = sizeMm / font.unitsPerEm
    const { glyphs, positions } = font.layout(piece, FEATURES)
    glyphs.forEach((glyph, at) => {
      const { xAdvance = 0, xOffset = 0, yOffset = 0 } = positions[at] ?? {}
      path.push(...outline(glyph, { xMm: widthMm + scale * xOffset, yMm: -scale * yOffset, scale }))
      widthMm += scale * xAdvance
    })
  }
  return { widthMm, path }
}

/** The text in runs that one font has, or none. */
function piecesOf(
  text: string,
  fonts: readonly Font[],
): readonly Readonly<{ font: Font | null; piece: string }>[] {
  const pieces: { font: Font | null; piece: string }[] = []
  const seen = text
    .normalize('NFC')
    .replace(/\p{Cf}/gu, '')
    .replace(/[\s\p{Cc}]/gu, ' ')
  for (const letter of seen) {
    const code = letter.codePointAt(0) ?? 0
    const font = fonts.find((one) => one.hasGlyphForCodePoint(code)) ?? null
    const last = pieces.at(-1)
    if (last !== undefined && last.font === font) last.piece += letter
    else pieces.push({ font, piece: letter })
  }
  return pieces
}

/** An unknown letter is an empty box as high as a capital, in parts of the em. */
const BOX = { advance: 0.62, left: 0.06, width: 0.5, height: 0.66, line: 0.06 }

function unknownBox(xMm: number, sizeMm: number): Path {
  const left = xMm + BOX.left * sizeMm
  const corners = (inset: number): readonly (readonly [number, number])[] => {
    const [x0, x1] = [left + inset, left + BOX.width * sizeMm - inset]
    const [y0, y1] = [-inset, inset - BOX.height * sizeMm]
    return [
      [x0, y0],
      [x0, y1],
      [x1, y1],
      [x1, y0],
    ]
  }
  // the inner side runs the other way round, so that the winding rule leaves it empty
  return [corners(0), corners(BOX.line * sizeMm).toReversed()].flatMap((ring) => [
    ...ring.map(([x, y], at) => ({
      kind: at === 0 ? ('move' as const) : ('line' as const),
      xMm: x,
      yMm: y,
    })),
    { kind: 'close' as const },
  ])
}

function outline(
  glyph: Glyph,
  { xMm, yMm, scale }: Readonly<{ xMm: number; yMm: number; scale: number }>,
): readonly PathPart[] {
  let pen = { xMm, yMm }
  const at = (x = 0, y = 0): typeof pen => ({ xMm: xMm + scale * x, yMm: yMm - scale * y })
  return glyph.path.commands.map(({ command, args }): PathPart => {
    const from = pen
    switch (command) {
      case 'moveTo':
        pen = at(args[0], args[1])
        return { kind: 'move', ...pen }
      case 'lineTo':
        pen = at(args[0], args[1])
        return { kind: 'line', ...pen }
      case 'quadraticCurveTo': {
        const by = at(args[0], args[1])
        pen = at(args[2], args[3])
        return curve(thirds(from, by), thirds(pen, by), pen)
      }
      case 'bezierCurveTo':
        pen = at(args[4], args[5])
        return curve(at(args[0], args[1]), at(args[2], args[3]), pen)
      case 'closePath':
        return { kind: 'close' }
    }
  })
}

type Point = Readonly<{ xMm: number; yMm: number }>

/** A quadratic curve's handle, two thirds of the way from an end, is a cubic one's. */
function thirds(end: Point, by: Point): Point {
  return {
    xMm: end.xMm + (2 / 3) * (by.xMm - end.xMm),
    yMm: end.yMm + (2 / 3) * (by.yMm - end.yMm),
  }
}

function curve(first: Point, second: Point, end: Point): PathPart {
  return {
    kind: 'curve',
    firstXMm: first.xMm,
    firstYMm: first.yMm,
    secondXMm: second.xMm,
    secondYMm: second.yMm,
    ...end,
  }
}

const BEFORE = { start: 0, middle: 0.5, end: 1 }

function standing({ path, widthMm }: Shaped, { xMm, yMm, anchor = 'start' }: Standing): Path {
  const left = xMm - BEFORE[anchor] * widthMm
  return path.map((part): PathPart => {
    switch (part.kind) {
      case 'close':
        return part
      case 'curve':
        return {
          kind: 'curve',
          firstXMm: left + part.firstXMm,
          firstYMm: yMm + part.firstYMm,
          secondXMm: left + part.secondXMm,
          secondYMm: yMm + part.secondYMm,
          xMm: left + part.xMm,
          yMm: yMm + part.yMm,
        }
      default:
        return { ...part, xMm: left + part.xMm, yMm: yMm + part.yMm }
    }
  })
}
