import type { Heard } from './lightHeard.ts'

export type SureWord = 'sure' | 'fairly sure' | 'in doubt' | 'a first guess'

/** A wedge or a strip says as much as several remembered screens; less than this is a guess. */
const ENOUGH_HEARD = 2

/** The word beside a dose: by the chance of a good screen, once the room has told us something. */
export function sureWord({
  chanceGood,
  heard,
}: Readonly<{ chanceGood: number; heard: Heard }>): SureWord {
  if (2 * heard.tests + heard.outcomes < ENOUGH_HEARD) return 'a first guess'
  if (chanceGood >= 0.85) return 'sure'
  if (chanceGood >= 0.65) return 'fairly sure'
  return chanceGood >= 0.45 ? 'in doubt' : 'a first guess'
}
