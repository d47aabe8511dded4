// A grainy drawing for the film bench: the same every time.
import sharp from 'sharp'
import { seeded } from './films.mjs'

const A4_720 = { width: 5953, height: 8419 }

/** Broad and thin strokes with a grain of 2 pixels, scanner noise all over, as a PNG of 8-bit grey. */
export async function grainyScan(path) {
  const { width, height } = A4_720
  const strokes = await sharp(Buffer.from(strokesSvg()), {
    limitInputPixels: false,
    unlimited: true,
  })
    .greyscale()
    .toColourspace('b-w')
    .raw()
    .toBuffer()
  const grey = new Uint8Array(width * height)
  let state = 99
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x
      const cell = Math.imul((x >> 1) + 7, 0x9e3779b1) ^ Math.imul((y >> 1) + 3, 0x85ebca6b)
      const grain = Math.imul(cell ^ (cell >>> 15), 0x2c1b3c6d) >>> 24
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0
      const ink = (255 - strokes[at]) * (0.55 + (0.45 * grain) / 255)
      grey[at] = Math.max(0, 248 + ((state >>> 24) & 3) - ink)
    }
  }
  await sharp(grey, { raw: { width, height, channels: 1 } })
    .toColourspace('b-w')
    .withMetadata({ density: 720 })
    .png({ compressionLevel: 6 })
    .toFile(path)
}

function strokesSvg() {
  const { width, height } = A4_720
  const next = seeded(5)
  const strokes = Array.from({ length: 220 }, () => {
    const [x, y, turn] = [next() * width, next() * height, 7 * next()]
    const [length, wide, dark] = [300 + 2500 * next(), 10 + 150 * next(), 0.35 + 0.6 * next()]
    const [dx, dy] = [length * Math.cos(turn), length * Math.sin(turn)]
    const path = `M${x} ${y} q${dx / 2 + 300 * next()} ${dy / 2} ${dx} ${dy}`
    return `<path d="${path}" stroke="#000" stroke-opacity="${dark}" stroke-width="${wide}" fill="none" stroke-linecap="round"/>`
  })
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<rect width="100%" height="100%" fill="#fff"/>${strokes.join('')}</svg>`
  )
}
