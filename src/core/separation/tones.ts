import { storedLight } from '../colour/srgb.ts'
import { SOLID } from '../halftone/solid.ts'
import { LUMINANCE, linearLight } from '../inspection/linearLight.ts'

const LIGHT: Float64Array = Float64Array.from({ length: 256 }, (_, value) =>
  linearLight(value / 255),
)

/**
 * The tone of a single ink: 1 − grey value. A colour's grey value is that of the grey as light as it.
 *
 * @param red, green, blue stored sRGB, 0 … 255
 * @returns 0 … SOLID
 * @source srgb
 */
export function singleTone(red: number, green: number, blue: number): number {
  if (red === green && green === blue) return greyTone(red)
  return Math.round((1 - storedLight(luminanceOf(red, green, blue))) * SOLID)
}

/**
 * How light a stored colour is: its part of white's light.
 *
 * @param red, green, blue stored sRGB, whole, 0 … 255
 * @returns 0 … 1
 * @source srgb
 */
export function luminanceOf(red: number, green: number, blue: number): number {
  return (
    LUMINANCE.red * (LIGHT[red] ?? 0) +
    LUMINANCE.green * (LIGHT[green] ?? 0) +
    LUMINANCE.blue * (LIGHT[blue] ?? 0)
  )
}

/** 255 is no ink; SOLID is 257 times 255, so that every grey level is exact. */
export function greyTone(grey: number): number {
  return 257 * (255 - grey)
}

/**
 * Cyan, magenta, yellow and black of a stored sRGB colour: what it lacks of each light, and all that
 * the three share is black ink alone.
 *
 * @param into four tones, 0 … SOLID
 * @source pdf32000 (10.3.5, with black generation and undercolour removal in full)
 */
export function processTones(
  [red, green, blue]: readonly [number, number, number],
  into: Uint16Array,
): void {
  const black = 255 - Math.max(red, green, blue)
  into[0] = 257 * (255 - red - black)
  into[1] = 257 * (255 - green - black)
  into[2] = 257 * (255 - blue - black)
  into[3] = 257 * black
}
