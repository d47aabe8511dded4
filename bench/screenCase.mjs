// A film of strokes and a photo of 24 million pixels of the screen made with it, a little turned, with
// faults in it: the same every time.
import sharp from 'sharp'
import { seeded } from './films.mjs'

/** 24.06 Mpx, of which the film takes the middle. */
export const SCREEN = { widthPx: 4152, heightPx: 5794, filmMm: { width: 200, height: 280 } }
const MARGIN_MM = { across: 16, down: 18 }
const FILM_DPI = 360
const DEPTH = 2

const TURN_DEG = 0.9

/** Where the film's corners stand in the photo, clockwise from its top left: x, y, x, y … */
export function cornersInPhoto() {
  const { widthPx, filmMm } = SCREEN
  const { width, height } = filmMm
  const perMm = widthPx / (width + 2 * MARGIN_MM.across)
  const [cos, sin] = [Math.cos((TURN_DEG * Math.PI) / 180), Math.sin((TURN_DEG * Math.PI) / 180)]
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ].flatMap(([x, y]) => {
    const [dx, dy] = [x - width / 2, y - height / 2]
    return [
      perMm * (MARGIN_MM.across + width / 2 + cos * dx - sin * dy),
      perMm * (MARGIN_MM.down + height / 2 + sin * dx + cos * dy),
    ]
  })
}

/** Writes the film as PNG, the photo of its screen as JPEG. */
export async function screenPhoto({ filmPath, photoPath }) {
  await writeFilm(filmPath)
  const { widthPx, heightPx, filmMm } = SCREEN
  const { width, height } = filmMm
  const box = [
    -MARGIN_MM.across,
    -MARGIN_MM.down,
    width + 2 * MARGIN_MM.across,
    height + 2 * MARGIN_MM.down,
  ]
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="${box.join(' ')}">` +
    `<rect x="-90" y="-90" width="600" height="600" fill="#8c6a48"/>` +
    `<g transform="rotate(${TURN_DEG} ${width / 2} ${height / 2})">` +
    `<rect x="-9" y="-9" width="${width + 18}" height="${height + 18}" fill="#1d6a62"/>` +
    `${strokes('#f2dfa0')}${faults()}</g></svg>`
  const pixels = await sharp(Buffer.from(svg), { limitInputPixels: false, unlimited: true })
    .flatten({ background: '#8c6a48' })
    .removeAlpha()
    .raw()
    .toBuffer()
  grain(pixels)
  await sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 92 })
    .toFile(photoPath)
}

async function writeFilm(path) {
  const { width, height } = SCREEN.filmMm
  const [across, down] = [width, height].map((mm) => Math.round((mm * FILM_DPI) / 25.4))
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${across}" height="${down}" viewBox="0 0 ${width} ${height}">` +
    `<rect width="${width}" height="${height}" fill="#fff"/>${strokes('#000')}</svg>`
  await sharp(Buffer.from(svg))
    .flatten({ background: '#fff' })
    .greyscale()
    .withMetadata({ density: FILM_DPI })
    .png()
    .toFile(path)
}

function strokes(colour) {
  const random = seeded(9)
  const { width, height } = SCREEN.filmMm
  return Array.from({ length: 340 }, () => {
    const [x, y] = [8 + random() * (width - 34), 8 + random() * (height - 34)]
    const [dx, dy] = [random() * 20, random() * 20]
    return `<path d="M${x} ${y}q${dy} ${dx} ${dx} ${dy}" fill="none" stroke="${colour}" stroke-width="${0.6 + 3 * random()}" stroke-linecap="round"/>`
  }).join('')
}

/** Holes in the ground and shut places, wider than twice what such a photo tells. */
function faults() {
  const random = seeded(31)
  const { width, height } = SCREEN.filmMm
  return Array.from({ length: 24 }, (_, at) => {
    const [x, y] = [10 + random() * (width - 20), 10 + random() * (height - 20)]
    return `<circle cx="${x}" cy="${y}" r="${0.5 + random()}" fill="${at % 2 === 0 ? '#f2dfa0' : '#1d6a62'}"/>`
  }).join('')
}

function grain(pixels) {
  let state = 77
  for (let at = 0; at < pixels.length; at += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) | 0
    pixels[at] = Math.max(0, Math.min(250, pixels[at] + DEPTH * (state >> 30)))
  }
}
