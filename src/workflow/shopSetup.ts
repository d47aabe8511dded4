import { surfaceDoses } from '../core/emulsion/doses.ts'
import type { Emulsion } from '../core/emulsion/emulsion.ts'
import { density, lu } from '../core/units/quantity.ts'
import type { LightKnown } from './light.ts'
import type { LightExposure } from './lightRecords.ts'
import { counterDoses, lightSetup } from './lightSetup.ts'
import type { Setup } from './setup.ts'

/**
 * The physics of an exposure as this shop has found it: skin dose by what its readings taught, on
 * the unit's own counter. The film base is counted in the doses, so it dims nothing a second time.
 *
 * @throws Failure 'conflict' under a unit without a counter of which nobody has told anything
 * @source belief-priors
 */
export function shopSetup(exposure: Omit<LightExposure, 'subject'>, known: LightKnown): Setup {
  const usual = lightSetup(exposure)
  const { gelDoseLu } = counterDoses(known.belief, exposure, known)
  return {
    ...usual,
    contact: { ...usual.contact, filmBaseDensity: density(0) },
    emulsion: atSkinDose(usual.emulsion, gelDoseLu),
  }
}

function atSkinDose(emulsion: Emulsion, gelDoseLu: number): Emulsion {
  if (emulsion.model === 'absorbing') return { ...emulsion, gelDoseLu: lu(gelDoseLu) }
  const usual = surfaceDoses(emulsion).gelDoseLu
  return { ...emulsion, cPerLu: (emulsion.cPerLu * usual) / gelDoseLu }
}

/** A setup in the form of `setup.json`. */
export function setupRecord({
  lamp,
  contact,
  emulsion,
  refractiveIndex,
  scatter,
  fabric: { threadsPerCm, threadUm },
}: Setup): Readonly<Record<string, Readonly<Record<string, unknown>>>> {
  return {
    lamp,
    contact,
    emulsion: { ...emulsion, refractiveIndex },
    scatter,
    fabric: { threadsPerCm, threadUm },
  }
}

/** The word by which two sections of one name can be of different kinds. */
const KIND_OF: Readonly<Record<string, string>> = { lamp: 'kind', emulsion: 'model' }

/**
 * What a setup file leaves out, taken from the shop's; a section of another kind (a bank in place of
 * a point lamp) is the file's alone. What is no setup is given back as it is, for its reader to say.
 */
export function withShopDefaults(
  written: unknown,
  shop: Readonly<Record<string, Readonly<Record<string, unknown>>>>,
): unknown {
  if (!isRecord(written)) return written
  const sections = Object.entries(shop).map(([name, usual]) => {
    const own = written[name] ?? {}
    if (!isRecord(own)) return [name, own]
    const kind = KIND_OF[name]
    const isOther = kind !== undefined && own[kind] !== undefined && own[kind] !== usual[kind]
    return [name, isOther ? own : { ...usual, ...own }]
  })
  return { ...written, ...Object.fromEntries(sections) }
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
