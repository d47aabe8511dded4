import { SOLID } from '../halftone/solid.ts'

/**
 * More ink than this at one place does not dry before the next screen, in solids. What printers keep
 * to with water-based inks lies between 2.2 and 2.8; a shop's own, seen on its own paper, comes first.
 *
 * @source ink-limit
 */
export const COVERAGE_LIMIT = 2.4

/** What a limit may be, in solids: less than one forbids black, and four inks are four. */
export const COVERAGE = { name: 'coverage', low: 1, high: 4, unit: 'solids' }

/**
 * Cyan, magenta, yellow and black brought down to a limit of ink at one place, where there is more.
 * First black takes the place of the grey that the three coloured inks share; under full black what
 * they share is left out; then the three are thinned alike. Black is never made less.
 *
 * @param tones of cyan, magenta, yellow and black, 0 … SOLID; changed where they lie
 * @param coverage the most that they may be together, 1 … 4 solids
 * @source pdf32000 (10.3.5: black generation and undercolour removal), ink-limit
 */
export function keepToLimit(tones: Uint16Array, coverage: number): void {
  const most = Math.floor(coverage * SOLID)
  let excess = sumOf(tones) - most
  if (excess <= 0) return
  // one part of black for one of each of the three is two parts less
  const replaced = Math.min(shared(tones), SOLID - (tones[3] ?? 0), Math.ceil(excess / 2))
  lessen(tones, replaced)
  tones[3] = (tones[3] ?? 0) + replaced
  excess = sumOf(tones) - most
  if (excess <= 0) return
  lessen(tones, Math.min(shared(tones), Math.ceil(excess / 3)))
  excess = sumOf(tones) - most
  if (excess <= 0) return
  const coloured = sumOf(tones) - (tones[3] ?? 0)
  const part = Math.max(0, coloured - excess) / coloured
  for (let ink = 0; ink < 3; ink++) tones[ink] = Math.floor((tones[ink] ?? 0) * part)
}

function sumOf(tones: Uint16Array): number {
  return tones.reduce((sum, tone) => sum + tone, 0)
}

/** The grey that cyan, magenta and yellow have in common. */
function shared(tones: Uint16Array): number {
  return Math.min(tones[0] ?? 0, tones[1] ?? 0, tones[2] ?? 0)
}

function lessen(tones: Uint16Array, by: number): void {
  for (let ink = 0; ink < 3; ink++) tones[ink] = (tones[ink] ?? 0) - by
}
