// Draws screen.jpg, the photo of the example of `inspect`: the demo film pencil.png as a washed-out
// screen before a window, taken by hand, with a pinhole and a scratch that nobody drew.
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'

const at = (name) => fileURLToPath(new URL(name, import.meta.url))
const { data: film, info } = await sharp(at('pencil.png'))
  .toColourspace('b-w')
  .raw()
  .toBuffer({ resolveWithObject: true })
const [widthMm, heightMm] = [210, 297]
const pxPerMm = info.width / widthMm

const PINHOLE = { xMm: 72, yMm: 128, acrossMm: 2.4 }
const SCRATCH = { xMm: 150, yMm: 245, halfMm: 9, acrossMm: 1, turn: 0.4 }
const EMULSION = [0.05, 0.2, 0.18]
const [widthPx, heightPx] = [1050, 1400]

/** From film millimetres to the photo, turned a little and tilted. */
function seen(xMm, yMm) {
  const [x, y] = [(xMm - widthMm / 2) / 150, (yMm - heightMm / 2) / 150]
  const depth = 1 + 0.04 * x - 0.06 * y
  const [cos, sin] = [Math.cos(0.035), Math.sin(0.035)]
  return [
    widthPx / 2 + (585 * (cos * x - sin * y)) / depth,
    heightPx / 2 + (585 * (sin * x + cos * y)) / depth,
  ]
}

/** Film millimetres of a photo place, by a few steps of `seen` and its slopes. */
function filmPlace(px, py, [xFrom, yFrom], steps) {
  let [x, y] = [xFrom, yFrom]
  for (let step = 0; step < steps; step += 1) {
    const [s, t] = seen(x, y)
    const [s1, t1] = seen(x + 0.1, y)
    const [s2, t2] = seen(x, y + 0.1)
    const [sx, tx, sy, ty] = [s1 - s, t1 - t, s2 - s, t2 - t].map((value) => value / 0.1)
    const determinant = sx * ty - sy * tx
    x += ((px - s) * ty - (py - t) * sy) / determinant
    y += ((py - t) * sx - (px - s) * tx) / determinant
  }
  return [x, y]
}

/** Light through a place: open, or emulsion; the frame lets none through. */
function lightAt(xMm, yMm) {
  const beyond = Math.max(-xMm, xMm - widthMm, -yMm, yMm - heightMm)
  if (beyond > 12) return [0.003, 0.003, 0.003]
  const [column, row] = [Math.floor(xMm * pxPerMm), Math.floor(yMm * pxPerMm)]
  const drawn = beyond < 0 && film[row * info.width + column] < 128
  const [dx, dy] = [xMm - SCRATCH.xMm, yMm - SCRATCH.yMm]
  const along = dx * Math.cos(SCRATCH.turn) + dy * Math.sin(SCRATCH.turn)
  const beside = dy * Math.cos(SCRATCH.turn) - dx * Math.sin(SCRATCH.turn)
  const scratched = Math.abs(along) < SCRATCH.halfMm && Math.abs(beside) < SCRATCH.acrossMm / 2
  const pierced = Math.hypot(xMm - PINHOLE.xMm, yMm - PINHOLE.yMm) < PINHOLE.acrossMm / 2
  return drawn || scratched || pierced ? [1, 0.97, 0.9] : EMULSION
}

let state = 7
function noise() {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0
  return state / 2 ** 32 - 0.5
}

const SUB = 3
let place = [0, 0]
const out = Buffer.alloc(3 * widthPx * heightPx)
for (let y = 0, to = 0; y < heightPx; y += 1) {
  for (let x = 0; x < widthPx; x += 1) {
    const sum = [0, 0, 0]
    for (let part = 0; part < SUB * SUB; part += 1) {
      const [px, py] = [x + ((part % SUB) + 0.5) / SUB, y + (Math.floor(part / SUB) + 0.5) / SUB]
      place = filmPlace(px, py, place, x === 0 && part === 0 ? 8 : 1)
      const light = lightAt(...place)
      for (let k = 0; k < 3; k += 1) sum[k] += light[k] / (SUB * SUB)
    }
    const square = ((x - widthPx / 2) ** 2 + (y - heightPx / 2) ** 2) / (widthPx / 2) ** 2
    for (const light of sum) {
      const linear = Math.max(0, light * 0.85 * (1 + 0.12 * square) ** -2 + 0.02 * noise())
      const stored = linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055
      out[to] = Math.min(255, Math.round(255 * stored))
      to += 1
    }
  }
}
await sharp(out, { raw: { width: widthPx, height: heightPx, channels: 3 } })
  .jpeg({ quality: 72 })
  .toFile(at('screen.jpg'))
