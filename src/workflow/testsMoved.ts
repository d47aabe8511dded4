import { outlookOn } from '../core/calibration/belief/question.ts'
import { recommendedDose } from '../core/calibration/belief/recommend.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import type { LightExposure } from './lightRecords.ts'
import { circumstancesOf, countsOf } from './lightSetup.ts'
import { doseWords } from './readingWords.ts'
import { groundOn } from './testsGround.ts'

type Believed = Readonly<{ before: Belief; after: Belief }>

/**
 * What one reading moved, in sentences; none where all doses are still said alike.
 *
 * @param media those worth telling of
 * @throws Failure 'conflict' under a unit without a counter of which nobody has told anything
 */
export function movedWords(
  { before, after }: Believed,
  exposure: Omit<LightExposure, 'subject'>,
  { media, day }: Readonly<{ media: readonly string[]; day: number }>,
): readonly string[] {
  const [was, is] = [before, after].map((belief) => groundWords(belief, exposure, { day }))
  const ground = was === is ? [] : [`The ground needs ${is}; before it was ${was}.`]
  const doses = media.flatMap((medium) => {
    const [dose, now] = [before, after].map((belief) =>
      mediumWords(belief, exposure, { medium, day }),
    )
    return dose === now ? [] : [`${capital(medium)}: ${now}; before it was ${dose}.`]
  })
  return [...ground, ...doses]
}

function groundWords(
  belief: Belief,
  exposure: Omit<LightExposure, 'subject'>,
  { day }: Readonly<{ day: number }>,
): string {
  const { value, low, high } = groundOn(belief, exposure, { day })
  return ranged(value, { low, high })
}

function mediumWords(
  belief: Belief,
  exposure: Omit<LightExposure, 'subject'>,
  { medium, day }: Readonly<{ medium: string; day: number }>,
): string {
  const counts = countsOf(exposure.unit)
  const question = { ...circumstancesOf(exposure, { day }), marks: [{ medium }] }
  const { doseLu, lowLu, highLu } = recommendedDose(outlookOn(belief, question))
  return ranged(counts * doseLu, { low: counts * lowLu, high: counts * highLu })
}

/** 42, 36 to 47 */
function ranged(value: number, { low, high }: Readonly<{ low: number; high: number }>): string {
  return `${doseWords(value)}, ${doseWords(low)} to ${doseWords(high)}`
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
