import type { Overview } from '../raster/overview.ts'
import { type PictureInks, paintStencil, type Rgb } from '../raster/stencilPicture.ts'
import type { MarkPlace } from './doseForFilm.ts'

/** The paper scheme's inks. */
const FILM: Rgb = [0xe7, 0xeb, 0xe6]
const INKS: PictureInks = {
  sheet: [0xfb, 0xfb, 0xf8],
  ink: [0x1d, 0x1b, 0x18],
  cut: [0x9e, 0x13, 0x1c],
  soft: [0x55, 0x52, 0x4b],
}
const INK = '#1d1b18'
const SOFT = '#55524b'
const CUT = '#9e131c'

/** Cells along the longer side of the film; the page is this and its margins. */
export const PICTURE_CELLS = 1600

const EDGE = { left: 76, top: 64, right: 28, bottom: 128 }

export type ForecastPicture = Readonly<{
  rgb: Uint8Array
  widthPx: number
  heightPx: number
  pixelsPerMm: number
  overlaySvg: string
}>

/**
 * The picture for people: the stencil at a dose in the product's signs, mm rulers, the weakest
 * marks ringed and numbered, and a line that says what the signs mean.
 */
export function forecastPicture(
  overview: Overview,
  page: Readonly<{ pixelUm: number; doseLu: number; rings: readonly MarkPlace[] }>,
): ForecastPicture {
  const widthPx = Math.max(720, overview.across + EDGE.left + EDGE.right)
  const heightPx = overview.down + EDGE.top + EDGE.bottom
  const rgb = new Uint8Array(3 * widthPx * heightPx)
  for (let at = 0; at < rgb.length; at += 3) rgb.set(FILM, at)
  paintStencil(overview, INKS, { rgb, widthPx, heightPx }, { left: EDGE.left, top: EDGE.top })
  const pixelsPerMm = 1000 / (page.pixelUm * overview.cellPx)
  const parts = [
    frame(overview),
    ...ruler(overview.across / pixelsPerMm, pixelsPerMm, 'across'),
    ...ruler(overview.down / pixelsPerMm, pixelsPerMm, 'down'),
    ...page.rings.map((ring, index) => waxRing(ring, { number: index + 1, pixelsPerMm, overview })),
    legend(page.doseLu, overview.down + EDGE.top + 58),
  ]
  const overlaySvg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" ` +
    `viewBox="0 0 ${widthPx} ${heightPx}" font-family="Atkinson Hyperlegible Next">${parts.join('')}</svg>`
  return { rgb, widthPx, heightPx, pixelsPerMm, overlaySvg }
}

function frame({ across, down }: Overview): string {
  return (
    `<rect x="${EDGE.left - 0.75}" y="${EDGE.top - 0.75}" width="${across + 1.5}" height="${down + 1.5}" ` +
    `fill="none" stroke="${INK}" stroke-width="1.5"/>`
  )
}

/** Ticks every 10 mm, taller ones with numbers every 50 or 100 as the space allows. */
function ruler(lengthMm: number, pixelsPerMm: number, way: 'across' | 'down'): readonly string[] {
  const spacing = [5, 10, 20, 50, 100, 200].find((mm) => mm * pixelsPerMm >= 90) ?? 500
  const small = spacing / 5
  const parts: string[] = []
  for (let mm = 0; mm <= lengthMm + 1e-6; mm += small) {
    const numbered = Math.abs(mm / spacing - Math.round(mm / spacing)) < 1e-6
    const tick = numbered ? 14 : 7
    const at = (mm * pixelsPerMm).toFixed(2)
    parts.push(
      way === 'across'
        ? `<path d="M${EDGE.left} ${EDGE.top}m${at} -4v${-tick}" stroke="${INK}" stroke-width="1.2"/>`
        : `<path d="M${EDGE.left} ${EDGE.top}m-4 ${at}h${-tick}" stroke="${INK}" stroke-width="1.2"/>`,
    )
    if (!numbered) continue
    const x = way === 'across' ? EDGE.left + mm * pixelsPerMm + 5 : EDGE.left - 24
    const y = way === 'across' ? EDGE.top - 12 : EDGE.top + mm * pixelsPerMm + 6
    const unit = way === 'across' && mm === 0 ? ' mm' : ''
    parts.push(
      `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" font-size="17" fill="${SOFT}" ` +
        `text-anchor="${way === 'across' ? 'start' : 'end'}">${mm}${unit}</text>`,
    )
  }
  return parts
}

/** A ring as a wax pencil draws it, twice round, with its number beside it. */
function waxRing(
  { xMm, yMm, widthUm }: MarkPlace,
  {
    number,
    pixelsPerMm,
    overview,
  }: Readonly<{ number: number; pixelsPerMm: number; overview: Overview }>,
): string {
  const x = EDGE.left + xMm * pixelsPerMm
  const y = EDGE.top + yMm * pixelsPerMm
  const radius = Math.min(60, Math.max(24, (widthUm / 1000) * pixelsPerMm + 16))
  const side = xMm * pixelsPerMm > overview.across / 2 ? -1 : 1
  const [labelX, labelY] = [x + side * (radius + 16), y - radius - 4]
  return (
    `<g fill="none" stroke="${CUT}"><ellipse cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" rx="${radius}" ry="${radius * 0.86}" ` +
    `stroke-width="3.4" transform="rotate(-14 ${x.toFixed(1)} ${y.toFixed(1)})"/>` +
    `<ellipse cx="${(x + 1.5).toFixed(1)}" cy="${(y - 1).toFixed(1)}" rx="${radius * 0.96}" ry="${radius * 0.9}" ` +
    `stroke-width="1.6" transform="rotate(9 ${x.toFixed(1)} ${y.toFixed(1)})"/></g>` +
    `<circle cx="${labelX.toFixed(1)}" cy="${Math.max(EDGE.top + 16, labelY).toFixed(1)}" r="15" fill="#fbfbf8" stroke="${CUT}" stroke-width="2"/>` +
    `<text x="${labelX.toFixed(1)}" y="${(Math.max(EDGE.top + 16, labelY) + 6.5).toFixed(1)}" font-size="19" font-weight="700" ` +
    `fill="${CUT}" text-anchor="middle">${number}</text>`
  )
}

function legend(doseLu: number, y: number): string {
  const dose = doseLu < 100 ? Number(doseLu.toFixed(1)) : Math.round(doseLu)
  const x = EDGE.left
  const threads = (from: number, gap: number): string =>
    Array.from({ length: Math.floor(34 / gap) }, (_, at) => from + at * gap)
      .map((at) => `<path d="M${at} ${y + 34}l6 -14" stroke="${CUT}" stroke-width="2.4"/>`)
      .join('')
  const word = (at: number, text: string): string =>
    `<text x="${at}" y="${y + 34}" font-size="17" fill="${INK}">${text}</text>`
  return (
    `<text x="${x}" y="${y}" font-size="22" font-weight="700" fill="${INK}">At ${dose} light units</text>` +
    `<rect x="${x}" y="${y + 20}" width="36" height="14" rx="7" fill="${INK}"/>${word(x + 46, 'opens')}` +
    threads(x + 122, 8) +
    word(x + 172, 'in doubt') +
    `<rect x="${x + 262}" y="${y + 20.5}" width="36" height="13" rx="6.5" fill="none" stroke="${SOFT}" stroke-width="1.5"/>` +
    word(x + 308, 'stays shut') +
    [0, 9, 18, 27]
      .map((at) => `<path d="M${x + 414 + at} ${y + 18}v17" stroke="${SOFT}" stroke-width="1.5"/>`)
      .join('') +
    word(x + 454, 'ground may wash away')
  )
}
