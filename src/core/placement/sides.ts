/**
 * How two rectangles are kept apart: the first left of the second, above it …; or across a corner,
 * mostly along one axis: then the shortest way from film to film is a slant.
 */
export type Side =
  | 'left'
  | 'right'
  | 'above'
  | 'below'
  | `${'left' | 'right'} ${'above' | 'below'}, ${'wide' | 'high'}`

/** What a side asks of one axis: who stands first, and which share of the gap lies between. */
export type AxisSide = Readonly<{ first: 'this' | 'that'; gapShare: number }>

const DEG = Math.PI / 180

/** @param slantDeg how far the shortest way leans from the axis it is mostly along, 0 … 45; null: straight */
export function axisSides(
  side: Side,
  slantDeg: number | null,
): Readonly<{ x: AxisSide | null; y: AxisSide | null }> {
  const x: 'this' | 'that' | null = side.includes('left')
    ? 'this'
    : side.includes('right')
      ? 'that'
      : null
  const y: 'this' | 'that' | null = side.includes('above')
    ? 'this'
    : side.includes('below')
      ? 'that'
      : null
  if (x !== null && y !== null) {
    const lean = (slantDeg ?? 0) * DEG
    const [along, beside] = [Math.cos(lean), Math.sin(lean)]
    const isWide = side.endsWith('wide')
    return {
      x: { first: x, gapShare: isWide ? along : beside },
      y: { first: y, gapShare: isWide ? beside : along },
    }
  }
  return {
    x: x === null ? null : { first: x, gapShare: 1 },
    y: y === null ? null : { first: y, gapShare: 1 },
  }
}
