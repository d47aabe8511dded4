import { type FilmPage, type PageItem, POINTS_PER_MM, type Stroke } from './filmPage.ts'
import { joined, moved, type Path, type Place, type Transform, UNMOVED } from './pagePath.ts'
import { IMAGE_ROWS, imagesIn } from './pdfImage.ts'

/** How black is named and how much of it a tint is. */
export type PdfInk = Readonly<{
  /** The colour space, as PDF writes it. */
  space: string
  /** The number that stands for a tint. */
  level: (tintShare: number) => number
  /** What a bitmap's bits 0 and 1 are in that space. */
  decode: string
}>

/** Decimals of a coordinate in points: 0.00005 pt is 18 nm. */
const PLACE_DECIMALS = 4
/** Of boxes and bitmaps, whose edges must meet pixels. */
export const BOX_DECIMALS: number = 6

const ENDS = { flat: 0, round: 1, square: 2 } as const
const CORNERS = { sharp: 0, round: 1, cut: 2 } as const

/** A number as PDF writes it: no exponent, no needless zeros. */
export function pdfNumber(value: number, decimals: number): string {
  const text = value.toFixed(decimals).replace(/\.?0+$/, '')
  return text === '-0' || text === '' ? '0' : text
}

/** The bitmaps of a page in the order in which `pageContent` names them /Film1, /Film2 … */
export function bitmapsOf(
  items: readonly PageItem[],
): readonly Extract<PageItem, { kind: 'bitmap' }>[] {
  return items.flatMap((item) => {
    if (item.kind === 'group') return bitmapsOf(item.items)
    return item.kind === 'bitmap' ? [item] : []
  })
}

/** The operators that draw a page, in points from its lower left corner. */
export function pageContent(page: FilmPage, ink: PdfInk): string {
  const lines = ['/Ink cs', '/Ink CS']
  let images = 0
  const at = (place: Place, through: Transform): string => {
    const { x, y } = pointOf(place, through, page.heightMm)
    return `${pdfNumber(x, PLACE_DECIMALS)} ${pdfNumber(y, PLACE_DECIMALS)}`
  }
  const pathOf = (path: Path, through: Transform): void => {
    for (const part of path) {
      switch (part.kind) {
        case 'move':
          lines.push(`${at(part, through)} m`)
          break
        case 'line':
          lines.push(`${at(part, through)} l`)
          break
        case 'curve': {
          const first = at({ xMm: part.firstXMm, yMm: part.firstYMm }, through)
          const second = at({ xMm: part.secondXMm, yMm: part.secondYMm }, through)
          lines.push(`${first} ${second} ${at(part, through)} c`)
          break
        }
        case 'close':
          lines.push('h')
      }
    }
  }
  const tint = (share = 1): string => pdfNumber(ink.level(share), PLACE_DECIMALS)
  const draw = (item: PageItem, through: Transform): void => {
    switch (item.kind) {
      case 'group':
        for (const inner of item.items) draw(inner, joined(through, item.transform))
        break
      case 'fill':
        lines.push(`${tint(item.tintShare)} scn`)
        pathOf(item.path, through)
        lines.push(item.rule === 'even-odd' ? 'f*' : 'f')
        break
      case 'stroke':
        lines.push(`${tint(item.tintShare)} SCN`, penOf(item, through))
        pathOf(item.path, through)
        lines.push('S')
        break
      case 'bitmap':
        for (let part = 0; part < imagesIn(item.film); part++) {
          images += 1
          const matrix = imageMatrix(item, { part, through, heightMm: page.heightMm })
          lines.push(`q ${matrix} cm /Film${images} Do Q`)
        }
    }
  }
  for (const item of page.items) draw(item, UNMOVED)
  return `${lines.join('\n')}\n`
}

function penOf(
  { widthMm, ends = 'flat', corners = 'sharp', dashesMm = [] }: Stroke,
  { a, b, c, d }: Transform,
): string {
  const scale = POINTS_PER_MM * Math.sqrt(Math.abs(a * d - b * c))
  const inPoints = (lengthMm: number): string => pdfNumber(scale * lengthMm, PLACE_DECIMALS)
  const dashes = dashesMm.map(inPoints).join(' ')
  return `${inPoints(widthMm)} w ${ENDS[ends]} J ${CORNERS[corners]} j [${dashes}] 0 d`
}

function pointOf(
  place: Place,
  through: Transform,
  pageHeightMm: number,
): Readonly<{ x: number; y: number }> {
  const { xMm, yMm } = moved(place, through)
  return { x: POINTS_PER_MM * xMm, y: POINTS_PER_MM * (pageHeightMm - yMm) }
}

/**
 * Bitmaps are drawn smaller by this share about their middle, 0.3 um in a metre, and by these points,
 * 1.4 nm: a reader that rounds edges outwards to its pixels may else find one a hair wider than it
 * is, take a pixel more and stretch them all. The first is for its 32-bit numbers, the second for
 * our decimals.
 */
const SMALLER = 3e-7
const SMALLER_PT = 4e-6

/** The matrix that lays the unit square, upright, on one part of a bitmap. */
function imageMatrix(
  { film, xMm, yMm }: Extract<PageItem, { kind: 'bitmap' }>,
  of: Readonly<{ part: number; through: Transform; heightMm: number }>,
): string {
  const mmPerPx = film.pixelUm / 1000
  const top = of.part * IMAGE_ROWS
  const bottom = Math.min(film.heightPx, top + IMAGE_ROWS)
  const corner = (column: number, row: number): Readonly<{ x: number; y: number }> => {
    const place = { xMm: xMm + column * mmPerPx, yMm: yMm + row * mmPerPx }
    return pointOf(place, of.through, of.heightMm)
  }
  const origin = corner(0, bottom)
  const right = corner(film.widthPx, bottom)
  const up = corner(0, top)
  const across = { x: right.x - origin.x, y: right.y - origin.y }
  const upward = { x: up.x - origin.x, y: up.y - origin.y }
  const lost = (side: typeof across): number => SMALLER + SMALLER_PT / Math.hypot(side.x, side.y)
  const [lostAcross, lostUpward] = [lost(across), lost(upward)]
  const numbers = [
    across.x * (1 - lostAcross),
    across.y * (1 - lostAcross),
    upward.x * (1 - lostUpward),
    upward.y * (1 - lostUpward),
    origin.x + (across.x * lostAcross + upward.x * lostUpward) / 2,
    origin.y + (across.y * lostAcross + upward.y * lostUpward) / 2,
  ]
  return numbers.map((number) => pdfNumber(number, BOX_DECIMALS)).join(' ')
}
