import type { FirstFacts } from '../../api/shop.ts'
import { weaveNamed } from '../../core/fabric/geometry.ts'
import { Failure, isFailure } from '../../core/failure.ts'
import { FILM_BASES } from '../../core/film/bases.ts'
import { um } from '../../core/units/quantity.ts'
import { type Remembered, secondsScale } from '../../workflow/lightFirstDose.ts'
import type { LightBase, LightExposure, LightShop } from '../../workflow/lightRecords.ts'
import { DEFAULT_POINT } from '../../workflow/setup.ts'

/** What a new shop's sentence begins with. */
export const FIRST_MEDIUM = 'soft pencil'
export const USUAL_BASE = 'matt drafting film'
const USUAL_FABRIC = '90-48'

/** How thick the usual film bases are, um.
 * @source film-bases */
export const BASE_UM: Readonly<Record<string, number>> = {
  'clear polyester': 100,
  'matt drafting film': 90,
  'tracing paper': 75,
}

type NamedWeave = Readonly<{ name: string }> & ReturnType<typeof weaveNamed>

/** A shop that is only told of yet: its usual exposure, and what somebody remembers. */
export type ToldShop = Readonly<{
  exposure: LightExposure
  shop: LightShop
  remembered: readonly Remembered[]
  weave: NamedWeave
}>

/**
 * The paragraph with five blanks as an exposure; what was left open is usual.
 *
 * @throws Failure 'wrong input' with field fabric for a name that is no fabric's
 */
export function toldShop(facts: FirstFacts, { day }: Readonly<{ day: number }>): ToldShop {
  const weave = weaveOf(facts.fabric)
  const base = usualBase()
  const countsIn = facts.countsIn ?? 'light units'
  const shop: LightShop = { usualBase: base, secondsUnits: countsIn === 'seconds' ? ['unit'] : [] }
  const remembered = [facts.lastTime, facts.another].flatMap((each) =>
    each === undefined
      ? []
      : [{ medium: each.medium, doseCounts: each.doseLu, outcome: each.outcome }],
  )
  const exposure: LightExposure = {
    subject: { kind: 'medium', id: FIRST_MEDIUM, name: FIRST_MEDIUM },
    base,
    unit: {
      id: 'unit',
      name: 'this lamp',
      lamp: DEFAULT_POINT,
      countsIn,
      countsPerLu: 1,
      lampHours: null,
    },
    screen: {
      id: 'screen',
      name: 'screen 1',
      fabric: { id: 'fabric', ...weave, colour: facts.colour ?? 'white' },
      coating: {
        id: 'coating',
        coats: facts.coats ?? null,
        overMeshUm: null,
        emulsion: {
          id: 'bucket',
          model: facts.emulsion === 'two-part' ? 'bleaching' : 'absorbing',
        },
      },
    },
  }
  const countsPerLu = scaleOf(remembered, { shop, exposure, day })
  return {
    exposure: { ...exposure, unit: { ...exposure.unit, countsPerLu } },
    shop,
    remembered,
    weave,
  }
}

function scaleOf(
  remembered: readonly Remembered[],
  known: Readonly<{ shop: LightShop; exposure: LightExposure; day: number }>,
): number | null {
  if (known.exposure.unit.countsIn === 'light units') return 1
  const best = remembered.find(({ outcome }) => outcome === 'good') ?? remembered[0]
  return best === undefined ? null : secondsScale(best, known)
}

function usualBase(): LightBase {
  const base = FILM_BASES.find(({ name }) => name === USUAL_BASE)
  if (base === undefined) throw new RangeError(`bases: expected ${USUAL_BASE} among them`)
  return { id: base.name, ...base, thicknessUm: um(BASE_UM[base.name] ?? 100) }
}

function weaveOf(written: string | undefined): NamedWeave {
  const name = written === undefined || written.trim() === '' ? USUAL_FABRIC : written.trim()
  try {
    return { name, ...weaveNamed(name) }
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    throw new Failure(cause.kind, cause.message, { field: 'fabric', cause })
  }
}
