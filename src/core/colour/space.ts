/** Three numbers of a colour, in the order of its space's name. */
export type Triple = readonly [number, number, number]

/** CIE 1931 tristimulus values; white has Y = 1. */
export type Xyz = Triple
/** CIELAB under D50, as prints are measured: L 0 … 100. */
export type Lab = Triple
/** Stored sRGB, 0 … 1. */
export type Srgb = Triple

export type Matrix = readonly [Triple, Triple, Triple]

/** A matrix times a column. */
export function times([first, second, third]: Matrix, of: Triple): Triple {
  return [dot(first, of), dot(second, of), dot(third, of)]
}

function dot([a, b, c]: Triple, [x, y, z]: Triple): number {
  return a * x + b * y + c * z
}
