/** Where films are rolled back to: for each, first printed first, a part of the print's width. */
export type Rolls = readonly number[]

/** Films lie a little askew. */
export const SLANT = 0.12
/** No two rolls lie on each other. */
const LEAST_APART = 0.03

/** Some way back, one after another, so that each shows what lies under it. */
export function usualRolls(films: number): Rolls {
  return Array.from({ length: films }, (_, at) => 0.46 + (0.4 * (at + 0.5)) / films)
}

/** A film rolled to a place; those that are in its way go along. */
export function rolledTo(rolls: Rolls, at: number, to: number): Rolls {
  const place = Math.min(1, Math.max(0, to))
  return rolls.map((roll, film) => {
    if (film === at) return place
    const apart = LEAST_APART * Math.abs(film - at)
    return film < at
      ? Math.min(roll, Math.max(0, place - apart))
      : Math.max(roll, Math.min(1, place + apart))
  })
}

/** Where a roll's edge is at a height 0 … 1 of the print. */
export function edgeAt(roll: number, height: number, proportion: number): number {
  return roll + (SLANT * (0.5 - height)) / proportion
}
