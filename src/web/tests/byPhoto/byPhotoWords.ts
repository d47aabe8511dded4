import type { Outcome } from '../../../api/shop.ts'
import { READ_WORDS } from '../read/readWords.ts'

/** What reading a test by photo says, in English. Numbers come in already written for people. */
export const BY_PHOTO_WORDS = {
  open: 'Read it from a photo',
  how: {
    wedge:
      'Dry the screen and hold it before a window or a light table. Fill the photo with the wedge, a finger’s width of ground around it, straight on and without flash.',
    strip:
      'Dry the screen and hold it before a window or a light table. Take all of the test film’s picture, straight on and without flash.',
  },
  caution: 'Never before the exposure lamp, lit or warm: do not look into it.',
  dosesFirst: 'Write the doses of all bands first, no two alike; a printed film has 3 to 12.',
  paper: 'The test film was on',
  paperLabel: 'Paper of the test film',
  judged: 'judged are',
  judgedLabel: 'Which marks are judged',
  printed: 'its printed marks',
  drawn: (column: number, of: number): string =>
    of === 1 ? 'the strokes drawn by hand' : `the strokes in column ${column} of ${of}`,
  where: {
    wedge:
      'Put the four corners on the wedge: all of its steps, from the first to the last. Either end may come first.',
    strip:
      'Put the four corners on the tips of the points at the sheet’s sides: above the band with most light, and below the last band whose ground still stands.',
  },
  read: 'Read it',
  lookAgain: 'Look for it again',
  byHand: 'Show where it lies',
  another: 'Take another photo',
  none: 'Leave the photo',
  working: { wedge: 'Reading the wedge …', strip: 'Looking for the strip …' },
  found: 'This is what I see in it. It is filled in below: look, correct it, then take it down.',
  inTen: (chance: number): string => {
    const tenths = Math.min(9, Math.max(1, Math.round(10 * chance)))
    return `right ${tenths} times in 10`
  },
  step: (name: 'solid' | 'clear', step: number, chance: string): string =>
    name === 'solid'
      ? step === 0
        ? `Not one step solid: ${chance}`
        : `Last solid: step ${step}, ${chance}`
      : `First clear: step ${step}, ${chance}`,
  between: (low: number, high: number): string => ` (from ${low} to ${high})`,
  skin: 'A thin last skin does not show in a photo: where your eye still sees some of it, say the next step.',
  band: (dose: string, grade: Outcome, chance: string): string =>
    `${dose}: ${READ_WORDS.grades[grade]}, ${chance}`,
  orElse: (grade: Outcome): string => `, or ${READ_WORDS.grades[grade]}`,
  unsure: (dose: string, grade: Outcome, other: Outcome): string =>
    `${dose}: ${READ_WORDS.grades[grade]} or ${READ_WORDS.grades[other]}? Say it yourself`,
  note: (says: string): string => `Read from a photo, which said: ${says}`,
} as const
