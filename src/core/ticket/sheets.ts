import { Failure } from '../failure.ts'

/** What was counted at the press: sheets pulled, and those of them that were spoiled. */
export type Tally = Readonly<{ kind: 'pulled' | 'spoiled'; sheets: number }>

export type SheetCount = Readonly<{ pulled: number; spoiled: number; good: number }>

/** Sheets of one layer: pulled, spoiled, and good after it. */
export function countSheets(tallies: readonly Tally[]): SheetCount {
  const sum = (wanted: Tally['kind']): number =>
    tallies.reduce((total, { kind, sheets }) => total + (kind === wanted ? sheets : 0), 0)
  const [pulled, spoiled] = [sum('pulled'), sum('spoiled')]
  return { pulled, spoiled, good: Math.max(0, pulled - spoiled) }
}

/** Of a hundred sheets under one layer five are spoiled. Judged. */
export const SPOILED_SHARE = 0.05

/**
 * Sheets of paper to begin with, so that as many as are wanted can be expected to come through all
 * layers: n = wanted / (1 − s)^layers, rounded up.
 *
 * @param wanted edition and proofs, 0 … 1,000,000
 * @param spoiledShare s of the sheets under each layer, 0 … 0.9
 * @throws RangeError outside of these, or for layers below 1
 */
export function sheetsToPrepare(
  wanted: number,
  { layers, spoiledShare = SPOILED_SHARE }: Readonly<{ layers: number; spoiledShare?: number }>,
): number {
  if (!(wanted >= 0 && wanted <= 1_000_000)) throw new RangeError(`wanted: ${wanted} sheets`)
  if (!(spoiledShare >= 0 && spoiledShare <= 0.9)) throw new RangeError(`spoiled: ${spoiledShare}`)
  if (!(Number.isInteger(layers) && layers >= 1)) throw new RangeError(`layers: ${layers}`)
  // A sheet more for what is lost in the last binary place would be a sheet too many.
  return Math.ceil(wanted / (1 - spoiledShare) ** layers - 1e-9)
}

/** What becomes of the sheets that came through: signed and numbered, and those beside the edition. */
export type EditionCard = Readonly<{ numbered: number; artistProofs: number; proofs: number }>

/**
 * Refuses a card that gives away more prints than there are.
 *
 * @param good sheets that came through the last layer
 * @throws Failure 'wrong input'
 */
export function expectEdition({ numbered, artistProofs, proofs }: EditionCard, good: number): void {
  const given = numbered + artistProofs + proofs
  if (given <= good) return
  const message = `The card gives out ${given} prints, and ${good} came through the last layer: count again, or tally what is missing.`
  throw new Failure('wrong input', message, { field: 'numbered' })
}
