import { SOLID } from '../halftone/solid.ts'
import { luminanceOf } from './tones.ts'

/**
 * The tone of a pale ink that is printed last for highlights: nothing up to a lightness, then rising
 * with it. White itself is bare stock, as for all other inks.
 *
 * @param red, green, blue stored sRGB, 0 … 255
 * @param from lightness 0 … 1 of white's, below 1
 * @returns 0 … SOLID
 * @source cie-lab
 */
export function highlightTone(red: number, green: number, blue: number, from: number): number {
  if (red === 255 && green === 255 && blue === 255) return 0
  const lightness = 1.16 * Math.cbrt(luminanceOf(red, green, blue)) - 0.16
  return lightness <= from ? 0 : Math.round((SOLID * (lightness - from)) / (1 - from))
}
