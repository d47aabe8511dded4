import { mm } from '../../core/units/quantity.ts'
import type { Base } from '../../store/bases.ts'
import type { Coating } from '../../store/coatings.ts'
import type { Emulsion } from '../../store/emulsions.ts'
import type { Fabric } from '../../store/fabrics.ts'
import type { Screen } from '../../store/screens.ts'
import type { LitUnit } from '../../store/units.ts'
import { dayOfIso } from '../../workflow/calendarDay.ts'
import type {
  Coats,
  LightBase,
  LightFabric,
  LightScreen,
  LightUnit,
} from '../../workflow/lightRecords.ts'
import { DEFAULT_POINT } from '../../workflow/setup.ts'
import { dayText } from './days.ts'

/** The shop's records as the things that an exposure is made of. */

export function lightUnit({ unit, lamp, isFirstLamp }: LitUnit): LightUnit {
  const { id, name, counts, luPerCount } = unit
  const isBank = lamp?.kind === 'bank'
  const { distanceMm = DEFAULT_POINT.distanceMm, sourceRadiusMm } = lamp ?? {}
  return {
    id,
    name,
    lamp: isBank
      ? { kind: 'bank', distanceMm: mm(distanceMm) }
      : {
          kind: 'point',
          distanceMm,
          sourceRadiusMm: sourceRadiusMm ?? DEFAULT_POINT.sourceRadiusMm,
        },
    countsIn: counts,
    // Nobody's lamp gives just one light unit in a second: 1 stands where none was told.
    countsPerLu: counts === 'seconds' && luPerCount === 1 ? null : 1 / luPerCount,
    lampHours: lamp?.litHours ?? null,
    lampFitted:
      lamp === null || isFirstLamp ? undefined : (dayOfIso(dayText(lamp.fittedAt)) ?? undefined),
  }
}

export function lightBase({ id, name, baseDensity, thicknessUm }: Base): LightBase {
  return { id, name, baseDensity, thicknessUm }
}

/** How people call a fabric: white goes without saying. */
export function fabricName({
  name,
  colour,
  dyed,
}: Pick<Fabric, 'name' | 'colour' | 'dyed'>): string {
  return dyed ? `${name} ${colour}` : name
}

export function lightFabric(fabric: Fabric): LightFabric {
  const { id, threadsPerCm, threadUm, dyed } = fabric
  return { id, name: fabricName(fabric), threadsPerCm, threadUm, colour: dyed ? 'dyed' : 'white' }
}

const COATS: readonly string[] = [
  'once on each side',
  'twice on the print side',
  'more',
] satisfies readonly Coats[]

/** The way of coating where it is one of the usual words; null for another, or none. */
export function coatsOf(recipe: string | null): Coats | null {
  return recipe !== null && COATS.includes(recipe) ? (recipe as Coats) : null
}

export function lightScreen(
  { id, tag }: Screen,
  of: Readonly<{
    fabric: Fabric
    coating: Coating | undefined
    emulsionOf: (batchId: string | null) => Emulsion | undefined
  }>,
): LightScreen {
  const { coating } = of
  const emulsion = of.emulsionOf(coating?.batchId ?? null)
  const batch = coating?.batchId ?? null
  return {
    id,
    name: `screen ${tag}`,
    fabric: lightFabric(of.fabric),
    coating:
      coating === undefined
        ? null
        : {
            id: coating.id,
            coats: coatsOf(coating.recipe),
            overMeshUm: coating.eomUm,
            emulsion:
              emulsion === undefined || batch === null
                ? null
                : { id: batch, model: emulsion.model },
          },
  }
}
