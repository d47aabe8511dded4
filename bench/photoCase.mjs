// A photo of 24 million pixels of the printed mat with a drawing and a step wedge in it: the same every time.
import sharp from 'sharp'
import { openVision } from '../dist/decode/vision/openVision.js'
import { matLayout } from '../dist/workflow/papers/matLayout.js'
import { seeded } from './films.mjs'

/** 24.06 Mpx; the mat turned a little in it. */
export const PHOTO = { widthPx: 4152, heightPx: 5794, sheetMm: { width: 210, height: 297 } }
const MARGIN_MM = 5
const CELLS = 6

/** sRGB grey of a share of the light table's light. */
function grey(light) {
  const value = light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055
  return `rgb(${[1, 1, 1].map(() => Math.round(255 * value)).join(',')})`
}

export async function matPhoto(path) {
  const { widthPx, heightPx, sheetMm } = PHOTO
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" ` +
    `viewBox="${-MARGIN_MM} ${-MARGIN_MM} ${sheetMm.width + 2 * MARGIN_MM} ${sheetMm.height + 2 * MARGIN_MM}">` +
    `<rect x="-9" y="-9" width="400" height="400" fill="${grey(0.8)}"/>` +
    `<g transform="rotate(0.6 105 148)">${await mat()}</g></svg>`
  const pixels = await sharp(Buffer.from(svg), { limitInputPixels: false, unlimited: true })
    .flatten({ background: '#fff' })
    .removeAlpha()
    .raw()
    .toBuffer()
  let state = 77
  for (let at = 0; at < pixels.length; at += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) | 0
    pixels[at] = Math.max(0, Math.min(250, pixels[at] + (state >> 30)))
  }
  await sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 92 })
    .toFile(path)
}

async function mat() {
  const { widthMm, heightMm, window, slot, targets, targetMm } = matLayout('a4')
  const rect = (x, y, w, h, light) =>
    `<rect x="${x}" y="${y}" width="${w}" height="${h}" fill="${grey(light)}"/>`
  const paper = 0.14
  const parts = [
    rect(0, 0, widthMm, heightMm, paper),
    rect(window.xMm, window.yMm, window.widthMm, window.heightMm, 0.72),
    rect(slot.xMm, slot.yMm, slot.widthMm, slot.heightMm, 0.8),
  ]
  for (let step = 0; step < 21; step += 1) {
    const light = 0.8 * 10 ** -(0.05 + 0.15 * step) + 0.0008
    parts.push(rect(slot.xMm + 5 + 7 * step, slot.yMm + 2, 7, slot.heightMm - 4, light))
  }
  const cells = await targetCells(targets.map(({ number }) => number))
  const cell = targetMm / CELLS
  for (const [at, { xMm, yMm }] of targets.entries()) {
    parts.push(rect(xMm, yMm, targetMm, targetMm, 0.005))
    for (const [x, y] of cells[at])
      parts.push(rect(xMm + x * cell, yMm + y * cell, cell, cell, paper))
  }
  return parts.join('') + strokes(window)
}

function strokes({ xMm, yMm, widthMm, heightMm }) {
  const random = seeded(5)
  return Array.from({ length: 220 }, () => {
    const [x, y] = [xMm + 12 + random() * (widthMm - 40), yMm + 12 + random() * (heightMm - 40)]
    const [dx, dy] = [random() * 16, random() * 16]
    const light = 0.72 * 10 ** -(0.6 + 1.4 * random())
    return `<path d="M${x} ${y}q${dy} ${dx} ${dx} ${dy}" fill="none" stroke="${grey(light)}" stroke-width="${0.4 + 2 * random()}" stroke-linecap="round"/>`
  }).join('')
}

/** White cells of each target, as the vision library draws them. */
async function targetCells(numbers) {
  const { vision } = await openVision()
  const dictionary = vision.getPredefinedDictionary(vision.DICT_4X4_50)
  return numbers.map((number) => {
    const image = new vision.Mat()
    dictionary.generateImageMarker(number, CELLS, image, 1)
    const white = [...image.data].flatMap((value, at) =>
      value > 0 ? [[at % CELLS, Math.floor(at / CELLS)]] : [],
    )
    image.delete()
    return white
  })
}
