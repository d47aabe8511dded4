import type { Lab } from '../../core/colour/space.ts'
import { inksOfFile, type PlanFile } from './usualPlan.ts'

/** What artwork states of inks by itself. */
export type StatedInks = Readonly<{
  ownInks?: readonly Readonly<{ name: string; lab: Lab }>[]
  statesCmyk?: boolean
}>

/** What of artwork passes through into the films of a plan as it is. */
export type Passing = Readonly<{
  /** Names in small letters. */
  inks: readonly string[]
  keepsCmyk: boolean
}>

export const NOTHING_PASSES: Passing = { inks: [], keepsCmyk: false }

/** Samples for looking are made for a plan's inks: anew only where others of the artwork's own pass. */
export function passingInks(
  plan: PlanFile | null,
  { ownInks = [], statesCmyk = false }: StatedInks,
): Passing {
  const names = inksOfFile(plan ?? {})
  if (statesCmyk && plan?.['mode'] === 'process') {
    return { inks: names.length === 0 ? PROCESS : names, keepsCmyk: true }
  }
  const own = ownInks.map(({ name }) => name.toLowerCase())
  return { inks: names.filter((name) => own.includes(name)).toSorted(), keepsCmyk: false }
}

const PROCESS = ['cyan', 'magenta', 'yellow', 'black']
