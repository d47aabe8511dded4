import { lu, um } from '../units/quantity.ts'
import { bleachDepth, bleachSurfaceDose } from './bleachIntegral.ts'
import type { CureLaw } from './cureLaw.ts'
import type { BleachingEmulsion } from './emulsion.ts'

/**
 * A coat whose sensitiser bleaches: dI/dz = −I (A M + B), dM/dt = −C I M, M = 1 at the start.
 *
 * The layer gels where a share g of the sensitiser is used up, that is where C · dose has come to
 * −ln(1 − g). The depth that a surface dose H cures is the integral of
 * du / (A (1 − exp(−u)) + B u) from there up to C H: exact, without steps in time, because dose and
 * depth enter only through u. The bleached part lets light through, so depth grows almost
 * linearly with dose and not with its logarithm.
 *
 * @param emulsion A = aPerUm, B = bPerUm, C = cPerLu, g = gelShare
 * @source dill1975
 * @limits dose = light × time; index-matched, no reflections from the squeegee side; damp diazo
 * bleaches without hardening
 */
export function bleachingLaw(emulsion: BleachingEmulsion): CureLaw {
  const { cPerLu, gelShare } = emulsion
  const gelled = -Math.log1p(-gelShare)
  return {
    skinDoseLu: lu(gelled / cPerLu),
    depthUm: (surfaceDose) => {
      const above = cPerLu * surfaceDose
      return um(above > gelled ? bleachDepth(emulsion, { below: gelled, above }) : 0)
    },
    doseLu: (depth) => lu(bleachSurfaceDose(emulsion, { below: gelled, depth }) / cPerLu),
  }
}
