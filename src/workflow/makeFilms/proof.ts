import { demichelWeights } from '../../core/colour/inkMixing.ts'
import { xyz50FromLab } from '../../core/colour/lab.ts'
import type { Lab } from '../../core/colour/space.ts'
import { srgbFromXyz50 } from '../../core/colour/srgb.ts'
import { toneCurve } from '../../core/halftone/toneCurve.ts'
import type { Ink } from '../../core/separation/plan.ts'
import { estimatedPrimaries } from '../../core/separation/primaries.ts'
import type { Coverage } from './screenPlates.ts'

export type Proof = Readonly<{ rgb: Uint8Array; widthPx: number; heightPx: number }>

/**
 * What the print will look like, from how much of each square the plates cover, ink over ink in the
 * order of printing. Colours of combinations are estimates.
 *
 * @param inks one for each plate of the coverage
 * @param paper left out: white
 */
export function proofOf(
  coverage: Coverage,
  { inks, paper }: Readonly<{ inks: readonly Ink[]; paper?: Lab | undefined }>,
): Proof {
  const ground = paper === undefined ? {} : { paper: xyz50FromLab(paper) }
  const primaries = estimatedPrimaries(inks, ground)
  const { widthPx, heightPx } = coverage
  const shares = coverage.shares.map((film, plate) => printedShares(film, inks[plate]?.printed))
  const rgb = new Uint8Array(3 * widthPx * heightPx)
  for (let at = 0; at < widthPx * heightPx; at++) {
    if (at > 0 && shares.every((plate) => plate[at] === plate[at - 1])) {
      rgb.copyWithin(3 * at, 3 * at - 3, 3 * at) // most of a print is flat
      continue
    }
    const weights = demichelWeights(shares.map((plate) => plate[at] ?? 0))
    let [x, y, z] = [0, 0, 0]
    primaries.forEach((primary, combination) => {
      const weight = weights[combination] ?? 0
      x += weight * primary[0]
      y += weight * primary[1]
      z += weight * primary[2]
    })
    srgbFromXyz50([x, y, z]).forEach((value, channel) => {
      rgb[3 * at + channel] = Math.round(255 * value)
    })
  }
  return { rgb, widthPx, heightPx }
}

const LEVELS = 1000

/** What the film's shares were measured to print as. */
function printedShares(film: Float32Array, printed: Ink['printed']): Float32Array {
  if (printed === undefined) return film
  const { printedShare } = toneCurve(printed)
  const table = Float32Array.from({ length: LEVELS + 1 }, (_, at) => printedShare(at / LEVELS))
  table[0] = 0
  table[LEVELS] = 1
  return film.map((share) => table[Math.round(share * LEVELS)] ?? share)
}
