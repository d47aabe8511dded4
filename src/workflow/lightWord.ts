import type { Heard } from './lightHeard.ts'
import type { LightSubject } from './lightRecords.ts'

export type SureWord = 'sure' | 'fairly sure' | 'in doubt' | 'a first guess'

/** A wedge or a strip says as much as several remembered screens; less than this is a guess. */
const ENOUGH_HEARD = 2

/**
 * The word beside a dose: by the chance of a good screen, once the room has told us something; of a
 * medium, something of that medium.
 */
export function sureWord({
  chanceGood,
  heard,
  subject,
}: Readonly<{ chanceGood: number; heard: Heard; subject: LightSubject['kind'] }>): SureWord {
  if (2 * heard.tests + heard.outcomes < ENOUGH_HEARD) return 'a first guess'
  if (subject === 'medium' && heard.ofTheseMarks === 0) return 'a first guess'
  if (chanceGood >= 0.85) return 'sure'
  if (chanceGood >= 0.65) return 'fairly sure'
  return chanceGood >= 0.45 ? 'in doubt' : 'a first guess'
}
