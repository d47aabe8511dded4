import { lu, um } from '../units/quantity.ts'
import type { CureLaw } from './cureLaw.ts'
import type { AbsorbingEmulsion } from './emulsion.ts'

/**
 * The working curve: Cd = Dp · ln(E/Ec), backwards E = Ec · exp(Cd/Dp).
 *
 * Light falls off in the coat as exp(−z/Dp) and the coat gels where it has had Ec.
 *
 * @param emulsion Ec = gelDoseLu, Dp = penetrationDepthUm
 * @source jacobs1992
 * @limits the coat's darkness does not change while it is exposed; dose = light × time; one fabric:
 * Dp differs from fabric to fabric
 */
export function absorbingLaw({ gelDoseLu, penetrationDepthUm }: AbsorbingEmulsion): CureLaw {
  return {
    skinDoseLu: gelDoseLu,
    depthUm: (surfaceDose) =>
      um(Math.max(0, penetrationDepthUm * Math.log(surfaceDose / gelDoseLu))),
    doseLu: (depth) => lu(gelDoseLu * Math.exp(depth / penetrationDepthUm)),
  }
}
