import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { READ_WORDS } from './read/readWords.ts'
import { numberWritten, valueOf } from './written.ts'

/** Another wedge than the usual one, as it was typed; empty: as usual. */
export type WedgeDraft = Readonly<Record<(typeof WEDGE_KEYS)[number], string>>

export const WEDGE_KEYS = ['steps', 'firstDensity', 'increment'] as const
export const NO_WEDGE: WedgeDraft = { steps: '', firstDensity: '', increment: '' }

const WEDGE_BOUNDS = {
  steps: { low: 2, high: 61, whole: true },
  firstDensity: { low: 0, high: 1 },
  increment: { low: 0.05, high: 0.5 },
} as const

/** How many steps the wedge has, as far as that can be read. */
export function stepsOf({ steps }: Pick<WedgeDraft, 'steps'>): number {
  return valueOf(numberWritten(steps, WEDGE_BOUNDS.steps)) ?? USUAL_WEDGE.steps
}

/** What is wrong with it, by field. */
export function wrongWedge(draft: WedgeDraft): Partial<WedgeDraft> {
  return Object.fromEntries(
    WEDGE_KEYS.filter((key) => numberWritten(draft[key], WEDGE_BOUNDS[key]).kind === 'wrong').map(
      (key) => [key, READ_WORDS.wrong.wedge(draft[key].trim())],
    ),
  )
}

/** Another wedge than the usual one; null when nothing of it was told. */
export function wedgeOf(
  draft: WedgeDraft,
): Readonly<{ steps: number; firstDensity: number; increment: number }> | null {
  if (WEDGE_KEYS.every((key) => draft[key].trim() === '')) return null
  const [steps, firstDensity, increment] = WEDGE_KEYS.map((key) =>
    valueOf(numberWritten(draft[key], WEDGE_BOUNDS[key])),
  )
  return {
    steps: steps ?? USUAL_WEDGE.steps,
    firstDensity: firstDensity ?? USUAL_WEDGE.firstDensity,
    increment: increment ?? USUAL_WEDGE.increment,
  }
}
