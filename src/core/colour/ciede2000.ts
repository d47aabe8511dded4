import type { Lab } from './space.ts'

const DEGREE = Math.PI / 180
const SEVEN_OF_25 = 25 ** 7

/**
 * How different two colours look, CIEDE2000: about 1 can just be seen side by side.
 *
 * The letters are the paper's; a prime is written out as `Prime`; the three weights k are 1.
 *
 * @returns 0 for the same colour, whichever comes first
 * @source sharma2005
 */
export function ciede2000([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): number {
  const meanC7 = ((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2) ** 7
  const g = 0.5 * (1 - Math.sqrt(meanC7 / (meanC7 + SEVEN_OF_25)))
  const [a1Prime, a2Prime] = [(1 + g) * a1, (1 + g) * a2]
  const [c1, c2] = [Math.hypot(a1Prime, b1), Math.hypot(a2Prime, b2)]
  const [h1, h2] = [hue(a1Prime, b1), hue(a2Prime, b2)]

  const dL = l2 - l1
  const dC = c2 - c1
  const dh = hueDifference(h1, h2, c1 * c2)
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin((dh / 2) * DEGREE)

  const meanL = (l1 + l2) / 2
  const meanC = (c1 + c2) / 2
  const meanH = meanHue(h1, h2, c1 * c2)
  const t =
    1 -
    0.17 * Math.cos((meanH - 30) * DEGREE) +
    0.24 * Math.cos(2 * meanH * DEGREE) +
    0.32 * Math.cos((3 * meanH + 6) * DEGREE) -
    0.2 * Math.cos((4 * meanH - 63) * DEGREE)
  const sL = 1 + (0.015 * (meanL - 50) ** 2) / Math.sqrt(20 + (meanL - 50) ** 2)
  const sC = 1 + 0.045 * meanC
  const sH = 1 + 0.015 * meanC * t
  const turn = 30 * Math.exp(-(((meanH - 275) / 25) ** 2))
  const rC = 2 * Math.sqrt(meanC ** 7 / (meanC ** 7 + SEVEN_OF_25))
  const rT = -Math.sin(2 * turn * DEGREE) * rC
  const [byL, byC, byH] = [dL / sL, dC / sC, dH / sH]
  return Math.sqrt(byL ** 2 + byC ** 2 + byH ** 2 + rT * byC * byH)
}

/** Degrees 0 … 360; 0 where there is no hue. */
function hue(a: number, b: number): number {
  if (a === 0 && b === 0) return 0
  const deg = Math.atan2(b, a) / DEGREE
  return deg < 0 ? deg + 360 : deg
}

function hueDifference(h1: number, h2: number, chroma: number): number {
  if (chroma === 0) return 0
  const difference = h2 - h1
  if (Math.abs(difference) <= 180) return difference
  return difference > 180 ? difference - 360 : difference + 360
}

function meanHue(h1: number, h2: number, chroma: number): number {
  if (chroma === 0) return h1 + h2
  if (Math.abs(h1 - h2) <= 180) return (h1 + h2) / 2
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2
}
