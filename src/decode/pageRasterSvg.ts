import type { FilmPage, PageItem, Stroke } from '../formats/filmPage.ts'
import { joined, moved, type Path, type Place, type Transform } from '../formats/pagePath.ts'

/** A band of a page's pixels: `rows` of them from row `topPx` on, over its whole width. */
export type PageBand = Readonly<{
  pxPerMm: number
  widthPx: number
  topPx: number
  rows: number
}>

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

/** The band as an SVG of so many pixels, on white; what lies outside is left out. */
export function pageSvg(page: FilmPage, band: PageBand): string {
  const { pxPerMm, widthPx, topPx, rows } = band
  const toBand: Transform = { a: pxPerMm, b: 0, c: 0, d: pxPerMm, eMm: 0, fMm: -topPx }
  const drawn = elements(page.items, { through: toBand, rows })
  // crisp edges: no greys, so that half a pixel is a half and not what smoothing makes of it
  const head = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${rows}" shape-rendering="crispEdges" stroke-miterlimit="${MITRE}">`
  const ground = `<path fill="#fff" d="M0 0H${widthPx}V${rows}H0z"/>`
  return `${head}${ground}${drawn.join('')}</svg>`
}

type Within = Readonly<{ through: Transform; rows: number }>

function elements(items: readonly PageItem[], within: Within): readonly string[] {
  return items.flatMap((item) => {
    switch (item.kind) {
      case 'group': {
        const through = joined(within.through, item.transform)
        return elements(item.items, { ...within, through })
      }
      case 'fill':
        return inBand(item.path, within, 0)
          ? [
              `<path fill="${colour(item.tintShare)}"${item.rule === 'even-odd' ? ' fill-rule="evenodd"' : ''} d="${pathData(item.path, within.through)}"/>`,
            ]
          : []
      case 'stroke': {
        const pen = penOf(item, within.through)
        const reach = pen.widthPx * (item.corners === 'round' ? 1 : MITRE)
        return inBand(item.path, within, reach)
          ? [
              `<path fill="none" stroke="${colour(item.tintShare)}"${pen.attributes} d="${pathData(item.path, within.through)}"/>`,
            ]
          : []
      }
      case 'bitmap':
        return [] // refused beforehand
    }
  })
}

function colour(tintShare = 1): string {
  return tintShare === 0 ? '#fff' : '#000'
}

function penOf(
  { widthMm, ends = 'flat', corners = 'sharp', dashesMm = [] }: Stroke,
  { a, b, c, d }: Transform,
): Readonly<{ widthPx: number; attributes: string }> {
  const scale = Math.sqrt(Math.abs(a * d - b * c))
  const dashes =
    dashesMm.length === 0
      ? ''
      : ` stroke-dasharray="${dashesMm.map((mm) => px(scale * mm)).join(' ')}"`
  const shape = ` stroke-linecap="${ENDS[ends]}" stroke-linejoin="${CORNERS[corners]}"`
  return {
    widthPx: scale * widthMm,
    attributes: ` stroke-width="${px(scale * widthMm)}"${shape}${dashes}`,
  }
}

/** Whether the hull of a path, widened, meets the band's rows. */
function inBand(path: Path, { through, rows }: Within, reachPx: number): boolean {
  let [top, bottom] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const place of placesOf(path)) {
    const { yMm: y } = moved(place, through)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y)
  }
  return bottom + reachPx >= 0 && top - reachPx <= rows
}

function* placesOf(path: Path): Generator<Place> {
  for (const part of path) {
    if (part.kind === 'close') continue
    yield part
    if (part.kind !== 'curve') continue
    yield { xMm: part.firstXMm, yMm: part.firstYMm }
    yield { xMm: part.secondXMm, yMm: part.secondYMm }
  }
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
