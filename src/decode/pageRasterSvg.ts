import type { FilmPage, PageItem, Stroke } from '../formats/filmPage.ts'
import { joined, moved, type Path, type Place, type Transform } from '../formats/pagePath.ts'

/** One item of a page as SVG, in pixels from the page's corner, and the rows that it may meet. */
export type DrawnItem = Readonly<{ topPx: number; bottomPx: number; svg: string }>

/** @throws RangeError where an item is neither full black nor clear, or is a bitmap */
export function expectBlack(items: readonly PageItem[]): void {
  for (const item of items) {
    if (item.kind === 'group') {
      expectBlack(item.items)
    } else if (item.kind === 'bitmap') {
      throw new RangeError('bitmap: expected a page of drawings alone')
    } else if ((item.tintShare ?? 1) % 1 !== 0) {
      throw new RangeError(`tintShare: expected 0 or 1 on a page of bits, got ${item.tintShare}`)
    }
  }
}

const ENDS = { flat: 'butt', round: 'round', square: 'square' } as const
const CORNERS = { sharp: 'miter', round: 'round', cut: 'bevel' } as const

/** PDF cuts a sharp corner from ten pen widths on; SVG, unless told, from four. */
const MITRE = 10

/** A page's items, one on top of another. */
export function drawnItems(
  { items }: FilmPage,
  { pxPerMm }: Readonly<{ pxPerMm: number }>,
): readonly DrawnItem[] {
  return drawnThrough(items, { a: pxPerMm, b: 0, c: 0, d: pxPerMm, eMm: 0, fMm: 0 })
}

/**
 * The SVG of some rows: `rows` of them from row `topPx` on, over the whole width, on white. Its edges
 * are crisp: no greys, so that half a pixel is a half and not what smoothing makes of it.
 */
export function bandSvg(
  drawn: readonly DrawnItem[],
  { widthPx, topPx, rows }: Readonly<{ widthPx: number; topPx: number; rows: number }>,
): string {
  const here = drawn.filter((item) => item.bottomPx >= topPx && item.topPx <= topPx + rows)
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${rows}">`,
    `<path fill="#fff" d="M0 0H${widthPx}V${rows}H0z"/>`,
    `<g shape-rendering="crispEdges" stroke-miterlimit="${MITRE}" transform="translate(0 ${-topPx})">`,
    ...here.map(({ svg }) => svg),
    '</g></svg>',
  ].join('')
}

function drawnThrough(items: readonly PageItem[], through: Transform): readonly DrawnItem[] {
  return items.flatMap((item): readonly DrawnItem[] => {
    switch (item.kind) {
      case 'group':
        return drawnThrough(item.items, joined(through, item.transform))
      case 'fill': {
        const rule = item.rule === 'even-odd' ? ' fill-rule="evenodd"' : ''
        const svg = `<path fill="${colour(item)}"${rule} d="${pathData(item.path, through)}"/>`
        return [{ ...extent(item.path, through, 0), svg }]
      }
      case 'stroke': {
        const scale = Math.sqrt(Math.abs(through.a * through.d - through.b * through.c))
        const pen = penOf(item, scale)
        const svg = `<path fill="none" stroke="${colour(item)}"${pen} d="${pathData(item.path, through)}"/>`
        return [{ ...extent(item.path, through, scale * item.widthMm * MITRE), svg }]
      }
      case 'bitmap':
        return [] // refused beforehand
    }
  })
}

function colour({ tintShare = 1 }: Readonly<{ tintShare?: number }>): string {
  return tintShare === 0 ? '#fff' : '#000'
}

function penOf(
  { widthMm, ends = 'flat', corners = 'sharp', dashesMm = [] }: Stroke,
  scale: number,
): string {
  const dashes = dashesMm.map((mm) => px(scale * mm)).join(' ')
  return [
    ` stroke-width="${px(scale * widthMm)}"`,
    ` stroke-linecap="${ENDS[ends]}" stroke-linejoin="${CORNERS[corners]}"`,
    dashes === '' ? '' : ` stroke-dasharray="${dashes}"`,
  ].join('')
}

/** The rows of a path's hull, widened. */
function extent(
  path: Path,
  through: Transform,
  reachPx: number,
): Readonly<{ topPx: number; bottomPx: number }> {
  let [topPx, bottomPx] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  const meet = (place: Place): void => {
    const { yMm } = moved(place, through)
    topPx = Math.min(topPx, yMm - reachPx)
    bottomPx = Math.max(bottomPx, yMm + reachPx)
  }
  for (const part of path) {
    if (part.kind === 'close') continue
    meet(part)
    if (part.kind !== 'curve') continue
    meet({ xMm: part.firstXMm, yMm: part.firstYMm })
    meet({ xMm: part.secondXMm, yMm: part.secondYMm })
  }
  return { topPx, bottomPx }
}

function pathData(path: Path, through: Transform): string {
  const at = (place: Place): string => {
    const { xMm, yMm } = moved(place, through)
    return `${px(xMm)} ${px(yMm)}`
  }
  return path
    .map((part) => {
      switch (part.kind) {
        case 'move':
          return `M${at(part)}`
        case 'line':
          return `L${at(part)}`
        case 'curve': {
          const first = at({ xMm: part.firstXMm, yMm: part.firstYMm })
          return `C${first} ${at({ xMm: part.secondXMm, yMm: part.secondYMm })} ${at(part)}`
        }
        case 'close':
          return 'z'
      }
    })
    .join('')
}

/** To a thousandth of a pixel: finer than the library's own edges. */
function px(value: number): string {
  return String(Math.round(value * 1000) / 1000)
}
