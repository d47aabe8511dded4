import { fabricGeometry, weaveNamed } from '../../core/fabric/geometry.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import { holdableTones } from '../../core/fabric/holdableTones.ts'
import { Failure, isFailure } from '../../core/failure.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { Section } from '../section.ts'

const FIELD = 'fabric'

/** The pitch of the plan's fabric; null where it names none. */
export function pitchOf(plan: Section): number | null {
  const weave = weaveUnder(plan)
  return weave === null ? null : fabricGeometry(weave).pitchUm
}

/**
 * A plan whose inks print the tones that its fabric holds, those beyond made of scattered dots. An
 * ink's own `tones` come first; flat colours have none.
 *
 * @throws Failure where the halftone is finer than the fabric holds at any tone
 */
export function heldByFabric(plan: Section, film: FilmPlan): FilmPlan {
  const weave = weaveUnder(plan)
  if (weave === null || film.halftone === null || film.mode === 'line') return film
  const { least, most, dotUm, islandUm } = holdableTones(film.halftone, weave)
  if (film.halftone.kind === 'stochastic') {
    if (least === 0) return film
    const message = `Dots of ${film.halftone.dotUm} um are finer than the fabric holds; make halftone.dotUm ${Math.ceil(dotUm)} or more, and ${Math.ceil(islandUm)} where tones are full.`
    throw new Failure('wrong input', message, { field: 'halftone.dotUm' })
  }
  if (least >= most) {
    const coarse = Math.floor(fabricGeometry(weave).rulingPerCm.usual)
    const message = `${film.halftone.rulingPerCm} lines a cm are finer than the fabric holds at any tone; try halftone.rulingPerCm ${coarse}.`
    throw new Failure('wrong input', message, { field: 'halftone.rulingPerCm' })
  }
  const tones = { least, most, scatters: true }
  return { ...film, inks: film.inks.map((ink) => ({ tones, ...ink })) }
}

function weaveUnder(plan: Section): Weave | null {
  const name = plan.raw(FIELD) ?? null
  if (name === null) return null
  if (typeof name !== 'string') throw plan.refusal(FIELD, 'must be a name like "90-48"')
  try {
    return weaveNamed(name)
  } catch (error) {
    if (!isFailure(error)) throw error
    throw plan.refusal(FIELD, 'must be a name like "90-48", threads a cm and their um')
  }
}
