import type { Belief } from '../core/calibration/belief/state.ts'
import { plainName } from '../core/units/plainName.ts'
import { type Light, type LightKnown, lightOf, lightScale, lightSeen } from './light.ts'
import type { LightExposure } from './lightRecords.ts'

type Named = Readonly<{ id: string; name: string }>

/** What is believed of one medium on a set-up. */
export type MediumBelieved = Pick<Light, 'verdict' | 'dose' | 'screensInTen' | 'word' | 'cloth'> &
  Readonly<{ medium: Named; heard: string }>

export type MediaBelieved = Readonly<{
  media: readonly MediumBelieved[]
  /** One scale for all their cloths. */
  scale: Readonly<{ lowLu: number; highLu: number }>
}>

/**
 * A row for each medium, all cloths on one scale.
 *
 * @throws Failure 'conflict' under a unit without a counter of which nobody has told anything
 */
export function mediaBelieved(
  exposure: Omit<LightExposure, 'subject'>,
  { media, ...known }: LightKnown & Readonly<{ media: readonly Named[] }>,
): MediaBelieved {
  const seen = media.map(({ id, name }) =>
    lightSeen({ ...exposure, subject: { kind: 'medium', id, name } }, known),
  )
  const own = seen.map((each) => lightScale(each))
  const scale = {
    lowLu: Math.min(...own.map(({ lowLu }) => lowLu)),
    highLu: Math.max(...own.map(({ highLu }) => highLu)),
  }
  const rows = seen.map((each) => {
    const { id, name } = each.exposure.subject
    const { verdict, dose, screensInTen, word, cloth } = lightOf(each, scale)
    const heard = heardOf(known.belief, name)
    return { medium: { id, name }, heard, verdict, dose, screensInTen, word, cloth }
  })
  return { media: rows, scale }
}

/** `11 screens, 2 strips`; `none yet`. */
function heardOf({ entries }: Belief, medium: string): string {
  const name = plainName(medium)
  const heard = entries.find((entry) => entry.kind === 'medium' && entry.name === name)?.heard
  const parts = [
    counted(heard?.outcome.times ?? 0, 'screen'),
    counted(heard?.strip.times ?? 0, 'strip'),
  ].filter((part) => part !== '')
  return parts.length === 0 ? 'none yet' : parts.join(', ')
}

function counted(times: number, what: string): string {
  if (times === 0) return ''
  return times === 1 ? `1 ${what}` : `${times} ${what}s`
}
