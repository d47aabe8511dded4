import { type Confounded, confounded } from '../../core/calibration/drift/confounded.ts'
import type { Then } from './then.ts'
import { thingIsThere, thingName } from './thingName.ts'

/** What was tested so long ago says little of what is in use now. */
const LOOKED_AT_DAYS = 183

/** What the tests of the last half year cannot tell apart, and which one would. */
export function uncrossed({ records, day }: Then): readonly Confounded[] {
  const lately = records.taught.flatMap(({ evidence }) => {
    const on = evidence?.day ?? null
    return evidence !== null && on !== null && on > day - LOOKED_AT_DAYS && on <= day
      ? [evidence]
      : []
  })
  return confounded(lately, {
    words: { nameOf: (kind, name) => thingName(records, kind, name) },
    isThere: (kind, name) => thingIsThere(records, kind, name),
  })
}
