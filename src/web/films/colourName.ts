import type { Lab } from '../../core/colour/space.ts'

/** Where hues begin on the circle of CIELAB, in degrees. Judged. */
const HUES: readonly (readonly [from: number, name: string])[] = [
  [15, 'red'],
  [45, 'orange'],
  [75, 'yellow'],
  [110, 'green'],
  [185, 'blue'],
  [300, 'violet'],
  [335, 'pink'],
]

/** A colour in a word or two, for an ink that nobody has named yet. */
export function colourName([l, a, b]: Lab): string {
  const chroma = Math.hypot(a, b)
  if (l < 22 && chroma < 14) return 'black'
  const depth = l > 75 ? 'pale ' : l < 38 ? 'dark ' : ''
  if (chroma < 8) return l > 92 ? 'white' : `${depth}grey`
  const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360
  const own = HUES.findLast(([from]) => hue >= from)?.[1] ?? 'pink'
  if (own === 'orange' && l < 55) return 'brown'
  if ((own === 'yellow' || own === 'orange') && l > 60) return own
  return `${depth}${own}`
}
