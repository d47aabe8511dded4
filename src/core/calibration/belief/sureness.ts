import type { Marks } from './evidence.ts'
import { groundEntries, marksEntry } from './names.ts'
import type { Question } from './question.ts'
import type { Recommendation } from './recommend.ts'
import { type Belief, type Entry, type NamedEntry, placeOf, UNHEARD } from './state.ts'

/** How far a number can be trusted, in a word. */
export type Sureness = 'sure' | 'fairly sure' | 'in doubt' | 'a first guess'

/** So many screens in a medium are more than hardly a reading; one strip is as well. */
const SCREENS = 2

/**
 * The word beside a dose, from how many screens in ten come out good: sure from 9, fairly sure from
 * 7, in doubt from 5. Less is a first guess, and so is anything with hardly a reading of our own:
 * no strip and no two screens in the medium or under the film; for a film that was read, no reading
 * under the lamp.
 *
 * @source sureness-words
 */
export function surenessOf(
  belief: Belief,
  question: Question,
  { screensInTen }: Pick<Recommendation, 'screensInTen'>,
): Sureness {
  if (question.marks.some((marks) => !isKnown(belief, { question, marks }))) return 'a first guess'
  if (screensInTen >= 9) return 'sure'
  if (screensInTen >= 7) return 'fairly sure'
  return screensInTen >= 5 ? 'in doubt' : 'a first guess'
}

/** The entry of a belief, unheard where the belief has none. */
export function entryOf(belief: Belief, named: NamedEntry): Entry {
  return belief.entries[placeOf(belief, named)] ?? { ...named, heard: UNHEARD }
}

/** How many readings of any kind have spoken about an entry. */
export function timesHeard({ heard }: Entry): number {
  return heard.wedge.times + heard.strip.times + heard.outcome.times
}

function isKnown(
  belief: Belief,
  { question, marks }: Readonly<{ question: Question; marks: Marks }>,
): boolean {
  if ('density' in marks) {
    return timesHeard(entryOf(belief, groundEntries(belief, question).unit)) > 0
  }
  const { heard } = entryOf(belief, marksEntry(marks, question))
  return heard.strip.times > 0 || heard.outcome.times >= SCREENS
}
