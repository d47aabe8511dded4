import { soundRise } from '../../emulsion/soundRise.ts'
import { plainName } from '../../units/plainName.ts'
import type { Circumstances, Marks } from './evidence.ts'
import { mediumPrior, PRIORS, unitPrior } from './priors.ts'
import { type Belief, type NamedEntry, placeOf } from './state.ts'

/** The entries of the ground, in the order unit, batch, fabric, recipe, screen. */
export function groundEntries(
  belief: Belief,
  circumstances: Circumstances,
): Readonly<Record<'unit' | 'batch' | 'fabric' | 'recipe' | 'screen', NamedEntry>> {
  const { unit = '', emulsion = '', recipe = '', screen = '' } = circumstances
  return {
    unit: { kind: 'unit', name: unit, prior: unitPrior(unit, belief.shop.unitScaleSd) },
    batch: { kind: 'batch', name: emulsion, prior: PRIORS.batch },
    fabric: fabricEntry(belief, circumstances),
    recipe: { kind: 'recipe', name: recipe, prior: PRIORS.recipe },
    screen: { kind: 'screen', name: screen, prior: PRIORS.screen },
  }
}

/** The film's own draw, shared by all marks on it. */
export function filmEntry({ film = '' }: Circumstances): NamedEntry {
  return { kind: 'film', name: film, prior: PRIORS.film }
}

/** What the rule of the sound dose leaves open on a thick coat; null on one that it is made for. */
export function coatEntry({ coat }: Circumstances): NamedEntry | null {
  if (coat === undefined) return null
  const { extraSd } = soundRise(coat)
  if (extraSd === 0) return null
  const name = `${Math.round(coat.thicknessUm - coat.anchorDepthUm)} um`
  return { kind: 'coat', name, prior: { mean: 0, sd: extraSd } }
}

/** The density of the marks: the medium's, or this film's own where it was read. */
export function marksEntry(marks: Marks, { film = '' }: Circumstances): NamedEntry {
  if (!('density' in marks)) {
    const name = plainName(marks.medium)
    return { kind: 'medium', name, prior: mediumPrior(name) }
  }
  // A film that was read again with another result is another film to the belief.
  const { density, densitySd, medium = '' } = marks
  const name = film === '' ? '' : `${film}: ${plainName(medium)} ${density} ± ${densitySd}`
  return { kind: 'read film', name, prior: { mean: density, sd: densitySd } }
}

/** White and dyed cloth of one name are two cloths; who says nothing means the one that is known. */
function fabricEntry(belief: Belief, { fabric = '', dyed }: Circumstances): NamedEntry {
  const white: NamedEntry = { kind: 'fabric', name: fabric, prior: PRIORS.fabric }
  const coloured: NamedEntry = {
    kind: 'fabric',
    name: `${fabric} (dyed)`.trimStart(),
    prior: PRIORS['dyed fabric'],
  }
  const onlyDyedIsKnown = placeOf(belief, white) < 0 && placeOf(belief, coloured) >= 0
  return (dyed ?? onlyDyedIsKnown) ? coloured : white
}
