import type { DosePlan } from './dosePlan.ts'

/** A plan before it has its sentences. */
export type PlannedDose = Omit<DosePlan, 'kind' | 'reasons' | 'advice'>

/**
 * Why the verdict is what it is, in whole sentences.
 *
 * @source latitude-practice
 */
export function reasonsFor(plan: PlannedDose): readonly string[] {
  const [low, full, high] = [units(plan.lowLu), units(plan.fullLu), units(plan.highLu)]
  const set = units(plan.recommendedLu)
  switch (plan.verdict) {
    case 'durable':
      return [
        `From ${full} the stencil is hard through, and the weakest mark stays open up to ${high}.`,
        ...(isSoft(plan)
          ? [`${set} keeps a margin for the mark and leaves the squeegee side a little soft.`]
          : []),
      ]
    case 'holds':
      return [
        `From ${low} the stencil stays in the mesh, and the weakest mark opens up to ${high}.`,
        `It would be hard through only from ${full}: before that the mark skins over, ` +
          'so the squeegee side stays soft.',
      ]
    case 'no dose':
      return [
        `The weakest mark skins over from ${high}, and the stencil holds only from ${low}: ` +
          'no dose does both.',
        `${set} lies half way between them: marks may stay veiled and the stencil may wash off.`,
      ]
  }
}

/**
 * What to do about it at the bench and the sink, first things first.
 *
 * @source latitude-practice
 */
export function adviceFor(plan: PlannedDose): readonly string[] {
  switch (plan.verdict) {
    case 'durable':
      return isSoft(plan) ? [...SOFT_CARE, LAMP_CAUTION] : HARD_CARE
    case 'holds':
      return [...SOFT_CARE, 'Plan a short run.', LAMP_CAUTION]
    case 'no dose':
      return [
        'Make the weakest mark denser: go over it once more, or redraw it in a denser medium, ' +
          'and read the film again.',
        `If the film must go as it is, set at most ${units(plan.highLu)}, ` +
          'the largest dose that opens the marks.',
        'Wash out gently, with little pressure and from a distance: this stencil hardly holds.',
        'Blot it, dry it, check it against the light, then post-expose it without the film.',
        LAMP_CAUTION,
      ]
  }
}

const HARD_CARE: readonly string[] = [
  'Wash out from both sides until every mark is clear, and check it against the light.',
]

const SOFT_CARE: readonly string[] = [
  'Wash out at low pressure.',
  'Rinse the squeegee side until no slime is left on it.',
  'Blot both sides, then dry the screen.',
  'Check every mark against the light before post-exposing: what is veiled then stays shut.',
]

const LAMP_CAUTION =
  'For post-exposure keep the unit closed and do not look at the lamp; ' +
  'its manual and the emulsion’s safety data sheet come first.'

/** The dose to set leaves the squeegee side short of hard. */
function isSoft({ recommendedLu, fullLu }: PlannedDose): boolean {
  return recommendedLu < fullLu
}

/** A dose as a printer says it: tenths below 100, whole units above. */
function units(dose: number): string {
  return `${dose < 100 ? Number(dose.toFixed(1)) : Math.round(dose)} lu`
}
