/** What becomes of a sheet that came through all layers, and that it is signed. */
export const EDITION_KINDS = ['proof', 'artist proof', 'numbered', 'signed'] as const

export type EditionKind = (typeof EDITION_KINDS)[number]

export type EditionCount = Readonly<{
  numbered: number
  artistProofs: number
  proofs: number
  signed: number
  /** Of the good sheets: not given out yet; below 0 more were given out than came through. */
  left: number
}>

/**
 * An edition's sheets by what became of them.
 *
 * @param tallies each of 1 sheet or more
 * @param good sheets that came through the last layer
 */
export function countEdition(
  tallies: readonly Readonly<{ kind: EditionKind; sheets: number }>[],
  good: number,
): EditionCount {
  const sum = (wanted: EditionKind): number =>
    tallies.reduce((total, { kind, sheets }) => total + (kind === wanted ? sheets : 0), 0)
  const [numbered, artistProofs, proofs] = [sum('numbered'), sum('artist proof'), sum('proof')]
  return {
    numbered,
    artistProofs,
    proofs,
    signed: sum('signed'),
    left: good - numbered - artistProofs - proofs,
  }
}
