/**
 * Linear light 0..1 of a stored value 0..1.
 *
 * @source srgb
 */
export function linearLight(stored: number): number {
  return stored <= 0.04045 ? stored / 12.92 : ((stored + 0.055) / 1.055) ** 2.4
}

/** Parts of red, green and blue light in lightness. @source srgb */
export const LUMINANCE: Readonly<Record<'red' | 'green' | 'blue', number>> = {
  red: 0.2126,
  green: 0.7152,
  blue: 0.0722,
}
