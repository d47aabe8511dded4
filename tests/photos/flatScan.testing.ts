import sharp from 'sharp'
import { clearFilm, densitiesOf, type FilmDensities, strokeOf } from '../../fixtures/photos/film.ts'
import { seeded } from '../../fixtures/photos/random.ts'

const INK = { density: 3, softMm: 0.02 } as const

/** Scattered thin lines and one field of hatching, at 300 dpi. */
export function thinLines(seed: number): FilmDensities {
  const film = clearFilm({ widthMm: 90, heightMm: 70 }, 25_400 / 300)
  const random = seeded(seed)
  for (let count = 0; count < 60; count += 1) {
    const [x, y] = [random.between(8, 80), random.between(8, 60)]
    const [angle, length] = [random.between(0, 3.14), random.between(2, 15)]
    const end = {
      x: Math.min(84, Math.max(6, x + length * Math.cos(angle))),
      y: Math.min(64, Math.max(6, y + length * Math.sin(angle))),
    }
    strokeOf(film, { points: [{ x, y }, end], widthMm: random.between(0.1, 1), ...INK })
  }
  for (let line = 0; line < 30; line += 1) {
    const points = [10, 14].map((x, at) => ({ x: x + line * 0.5, y: 10 + 10 * at }))
    strokeOf(film, { points, widthMm: 0.2, ...INK })
  }
  return densitiesOf(film)
}

const OPEN = [250, 221, 142] as const
const GROUND = [15, 80, 76] as const

/** A clean screen as a flatbed scans it: sharp, even, turned a little, its colours coarser than its light. */
export async function flatScan(film: FilmDensities): Promise<Buffer> {
  const { widthPx, heightPx, densities } = film
  const rgb = new Uint8Array(3 * densities.length)
  for (const [at, density] of densities.entries()) {
    const share = Math.min(1, (1 - 10 ** -density) * 1.001)
    for (const [colour, ground] of GROUND.entries()) {
      const [shut, open] = [lightOf(ground), lightOf(OPEN[colour] ?? 0)]
      rgb[3 * at + colour] = storedOf(shut + share * (open - shut))
    }
  }
  const background = { r: GROUND[0], g: GROUND[1], b: GROUND[2] }
  const laid = await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .extend({ top: 61, bottom: 60, left: 71, right: 60, background })
    .png()
    .toBuffer()
  const turned = await sharp(laid).rotate(0.7, { background }).png().toBuffer()
  return sharp(turned).jpeg({ quality: 85, chromaSubsampling: '4:2:0' }).toBuffer()
}

/** sRGB's curve, IEC 61966-2-1. */
function lightOf(stored: number): number {
  const value = stored / 255
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4
}

function storedOf(light: number): number {
  return Math.round(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055))
}
