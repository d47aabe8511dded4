import { groundEstimate } from '../core/calibration/belief/estimates.ts'
import type { Circumstances } from '../core/calibration/belief/evidence.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { surfaceDoses } from '../core/emulsion/doses.ts'
import {
  DEFAULT_BLEACHING_EMULSION,
  DEFAULT_EMULSION,
  type Emulsion,
} from '../core/emulsion/emulsion.ts'
import { fabricGeometry } from '../core/fabric/geometry.ts'
import { Failure } from '../core/failure.ts'
import { share, type Um, um } from '../core/units/quantity.ts'
import type {
  Coats,
  LightBase,
  LightCoating,
  LightExposure,
  LightScreen,
  LightUnit,
} from './lightRecords.ts'
import { DEFAULT_SETUP, type Setup } from './setup.ts'

/** Emulsion over the mesh by how a screen is coated, um.
 * @source coat-thickness */
const OVER_MESH_UM: Readonly<Record<Coats, number>> = {
  'once on each side': 8,
  'twice on the print side': 12,
  more: 18,
}
const USUAL_COATS: Coats = 'once on each side'
/** From the top of the mesh down to the thread knuckles, um.
 * @source default-emulsion */
const TO_KNUCKLES_UM = 12
/** What dyed cloth leaves of the halo.
 * @source spread-contract */
const DYED_SCATTER: Setup['scatter'] = { lengthUm: um(25), weight: share(0.04) }

type CoatedFabric = Pick<LightScreen, 'fabric'> &
  Readonly<{ coating: Pick<LightCoating, 'coats' | 'overMeshUm'> | null }>

/** Thickness of fabric and coat, and how deep the stencil must be cured to stay. */
export function coatOf(
  screen: CoatedFabric | null,
): Readonly<{ thicknessUm: Um; anchorDepthUm: Um }> {
  const { coats, overMeshUm: measuredUm } = screen?.coating ?? { coats: null, overMeshUm: null }
  const overMeshUm = measuredUm ?? OVER_MESH_UM[coats ?? USUAL_COATS]
  const fabricUm = fabricGeometry(screen?.fabric ?? DEFAULT_SETUP.fabric).thicknessUm
  return {
    thicknessUm: um(fabricUm + overMeshUm),
    anchorDepthUm: um(Math.min(fabricUm, overMeshUm + TO_KNUCKLES_UM)),
  }
}

/**
 * The physics of an exposure, from what the shop says of its things; what nobody said is usual.
 * Its doses are those of the usual emulsion: what the shop has learned is in the belief.
 *
 * @source spread-contract, coat-thickness
 */
export function lightSetup({
  base,
  screen,
  unit,
}: Readonly<{ base: LightBase; screen: LightScreen | null; unit: LightUnit }>): Setup {
  const bleaches = screen?.coating?.emulsion?.model === 'bleaching'
  const usual: Emulsion = bleaches ? DEFAULT_BLEACHING_EMULSION : DEFAULT_EMULSION
  return {
    ...DEFAULT_SETUP,
    lamp: unit.lamp,
    contact: {
      ...DEFAULT_SETUP.contact,
      filmBaseUm: base.thicknessUm,
      filmBaseDensity: base.baseDensity,
    },
    emulsion: { ...usual, ...coatOf(screen) },
    scatter: screen?.fabric.colour === 'dyed' ? DYED_SCATTER : DEFAULT_SETUP.scatter,
    fabric: screen?.fabric ?? DEFAULT_SETUP.fabric,
  }
}

/** The exposure in the words of the belief, for which the shop's things are names. */
export function circumstancesOf(
  { base, screen, unit }: Omit<LightExposure, 'subject'>,
  { day }: Readonly<{ day: number }>,
): Circumstances {
  const { coating = null, fabric } = screen ?? {}
  return {
    unit: unit.id,
    emulsion: coating?.emulsion?.id,
    fabric: fabric?.id,
    dyed: fabric?.colour === 'dyed',
    recipe: coating?.coats ?? undefined,
    screen: coating?.id,
    baseDensity: base.baseDensity,
    coat: coatOf(screen),
    day,
    lampHours: unit.lampHours ?? undefined,
    lampFitted: unit.lampFitted,
  }
}

/**
 * What this unit's counter shows for one light unit of the models where the film lies.
 *
 * @throws Failure 'conflict' while nobody can tell
 */
export function countsOf({ name, countsPerLu, glassShare = 1 }: LightUnit): number {
  if (countsPerLu !== null) return countsPerLu / glassShare
  const message = `Nobody has told us yet how long ${name} takes: write down one exposure in seconds and how it came out.`
  throw new Failure('conflict', message, { field: 'unit' })
}

/** Skin, hold, sound and full dose on the unit's own counter, the film base counted in. */
export type CounterDoses = Readonly<{
  gelDoseLu: number
  holdDoseLu: number
  soundDoseLu: number
  throughDoseLu: number
}>

/**
 * Best estimates of the four doses as they must be set on this unit. Skin, hold and sound are the
 * belief's; the full dose lies over hold by the ratio of the emulsion's model.
 */
export function counterDoses(
  belief: Belief,
  exposure: Omit<LightExposure, 'subject'>,
  { day }: Readonly<{ day: number }>,
): CounterDoses {
  const counts = countsOf(exposure.unit)
  const ground = groundEstimate(belief, circumstancesOf(exposure, { day }))
  const model = surfaceDoses(lightSetup(exposure).emulsion)
  const holdDoseLu = counts * ground.holdDoseLu.value
  return {
    gelDoseLu: counts * ground.gelDoseLu.value,
    holdDoseLu,
    soundDoseLu: counts * ground.soundDoseLu.value,
    throughDoseLu: (holdDoseLu * model.throughDoseLu) / model.holdDoseLu,
  }
}
