import { LUMINANCE, linearLight } from '../../core/inspection/linearLight.ts'
import { type PhotoPlanes, photoPlanes } from '../../kernels/photoPlanes.ts'
import type { Colours } from './photoLight.ts'

/** 8-bit values from here up have no room above them: JPEG's blocks ring by a step or two. */
const FULL_FROM = { 8: 254, 16: 65_000 } as const

/** Values of a file, whose channels lie side by side in each pixel. */
export type Samples = Readonly<{
  data: Uint8Array | Uint16Array
  channels: number
  widthPx: number
  heightPx: number
  bitDepth: 8 | 16
}>

/** Above any sum of the others: light at its end. */
const AT_END = 2

/** Linear light, exactly 1 where any colour is at its end. */
export function lightOf(samples: Samples): PhotoPlanes {
  const { channels, bitDepth } = samples
  const parts = channels >= 3 ? COLOURED : [1]
  return photoPlanes({ ...samples, tables: parts.map((part) => table(bitDepth, part)) })
}

const COLOURED = [LUMINANCE.red, LUMINANCE.green, LUMINANCE.blue] as const

/** A part of the light of each stored value. */
function table(bitDepth: 8 | 16, part: number): Float32Array {
  const most = bitDepth === 16 ? 65_535 : 255
  return Float32Array.from({ length: most + 1 }, (_, at) =>
    at >= FULL_FROM[bitDepth] ? AT_END : part * linearLight(at / most),
  )
}

/** Cells along the longer side, and places looked at along a cell's side. */
const CELLS = 100
const LOOKS = 4
/** Under this light a colour is grain and rounding. */
const LEAST_LIGHT = 0.01

/** null for a grey file. */
export function coloursOf({
  data,
  channels,
  widthPx,
  heightPx,
  bitDepth,
}: Samples): Colours | null {
  if (channels < 3) return null
  const light = table(bitDepth, 1)
  const cellPx = Math.ceil(Math.max(widthPx, heightPx) / CELLS)
  const [across, down] = [Math.ceil(widthPx / cellPx), Math.ceil(heightPx / cellPx)]
  const hues = new Float32Array(2 * across * down)
  for (let cell = 0; cell < across * down; cell += 1) {
    const [left, top] = [(cell % across) * cellPx, Math.floor(cell / across) * cellPx]
    let [red, green, blue] = [0, 0, 0]
    for (let look = 0; look < LOOKS ** 2; look += 1) {
      const x = left + Math.floor((((look % LOOKS) + 0.5) * cellPx) / LOOKS)
      const y = top + Math.floor(((Math.floor(look / LOOKS) + 0.5) * cellPx) / LOOKS)
      const from = channels * (Math.min(heightPx - 1, y) * widthPx + Math.min(widthPx - 1, x))
      red += light[data[from]] / LOOKS ** 2
      green += light[data[from + 1]] / LOOKS ** 2
      blue += light[data[from + 2]] / LOOKS ** 2
    }
    const told = Math.max(red, green, blue) < 1 && Math.min(red, green, blue) > 0
    const bright = told && LUMINANCE.red * red + LUMINANCE.green * green > LEAST_LIGHT
    hues[2 * cell] = bright ? Math.log10(red / green) : Number.NaN
    hues[2 * cell + 1] = bright ? Math.log10(blue / green) : Number.NaN
  }
  return { cellPx, across, down, hues }
}
