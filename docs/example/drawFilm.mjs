// Draws film.jpg, the photo of the example of `read`: the demo film pencil.png on a light table, taken
// by hand and a little askew, with a step wedge of 21 half stops beneath it.
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'

const at = (name) => fileURLToPath(new URL(name, import.meta.url))
const { data: film, info } = await sharp(at('pencil.png'))
  .toColourspace('b-w')
  .raw()
  .toBuffer({ resolveWithObject: true })
const [widthMm, heightMm] = [210, 297]
const pxPerMm = info.width / widthMm
const [widthPx, heightPx] = [1050, 1550]
const BASE = 0.05
const WEDGE = { xMm: 31, yMm: 306, stepMm: 7, heightMm: 13, count: 21 }
const STRAY_LIGHT = 0.004

/** From the photo to film millimetres: turned a little and tilted. */
function placeAt(px, py) {
  const [x, y] = [(px - widthPx / 2) / 1000, (py - heightPx / 2) / 1000]
  const [cos, sin] = [Math.cos(0.03), Math.sin(0.03)]
  const depth = 1 + 0.05 * x + 0.07 * y
  const [u, v] = [(cos * x + sin * y) / depth, (cos * y - sin * x) / depth]
  return [widthMm / 2 + 222 * u, heightMm / 2 + 10 + 222 * v]
}

function lightThrough(xMm, yMm) {
  const table = 1 - 0.25 * ((xMm / 210 - 0.45) ** 2 + (yMm / 297 - 0.4) ** 2)
  const step = Math.floor((xMm - WEDGE.xMm) / WEDGE.stepMm)
  const inWedge = yMm >= WEDGE.yMm && yMm < WEDGE.yMm + WEDGE.heightMm
  if (inWedge && step >= 0 && step < WEDGE.count) return table * 10 ** -(0.05 + 0.15 * step)
  if (xMm < 0 || yMm < 0 || xMm >= widthMm || yMm >= heightMm) return table
  const grey = film[Math.floor(yMm * pxPerMm) * info.width + Math.floor(xMm * pxPerMm)] / 255
  return table * 10 ** -BASE * Math.max(grey, 0.003)
}

let state = 11
function noise() {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0
  return state / 2 ** 32 - 0.5
}

const SUB = 3
const out = Buffer.alloc(3 * widthPx * heightPx)
for (let y = 0, to = 0; y < heightPx; y += 1) {
  for (let x = 0; x < widthPx; x += 1) {
    let light = 0
    for (let part = 0; part < SUB * SUB; part += 1) {
      const [px, py] = [x + ((part % SUB) + 0.5) / SUB, y + (Math.floor(part / SUB) + 0.5) / SUB]
      light += lightThrough(...placeAt(px, py)) / (SUB * SUB)
    }
    for (const colour of [0.84, 0.83, 0.8]) {
      const clean = colour * (light + STRAY_LIGHT)
      const linear = Math.max(0, clean + 0.012 * Math.sqrt(clean + 0.001) * noise())
      const stored = linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055
      out[to] = Math.min(255, Math.round(255 * stored))
      to += 1
    }
  }
}
await sharp(out, { raw: { width: widthPx, height: heightPx, channels: 3 } })
  .jpeg({ quality: 80 })
  .toFile(at('film.jpg'))
