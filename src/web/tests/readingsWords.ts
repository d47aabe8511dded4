import { TESTS_TITLES } from '../words.ts'

/** What the list of readings says, in English. */
export const READINGS_WORDS = {
  title: TESTS_TITLES.readings,
  all: 'everything',
  lead: 'Readings that',
  restsOn: 'rests on',
  medium: 'Medium',
  setUp: (fabric: string, batch: string | null, unit: string): string =>
    batch === null ? `On ${fabric} under ${unit}.` : `On ${fabric} with ${batch} under ${unit}.`,
  working: 'Looking the readings up …',
  none: 'Nobody has told us anything yet that bears on this.',
  noneMore: 'A wedge says most in the least time.',
  tell: { wedge: 'I read a wedge', strip: 'I made a strip', outcome: 'Tell how a screen came out' },
  struck: (day: string, reason: string): string => `Struck out on ${day}: ${reason}`,
  strike: 'Strike it out',
  strikeOf: (says: string): string => `, ${says}`,
  why: 'Why does it not count?',
  whyMore:
    'It stays here, marked; only what is believed forgets it. Strike out what was mistaken, not what surprises.',
  reasons: ['read wrongly', 'another screen', 'told twice', 'the lamp was cold'],
  missing: 'Say in a few words why, such as “told twice”.',
  leave: 'Leave it',
  moved: 'What that moved:',
  unmoved: 'That moved no dose.',
  count: (count: number, struck: number): string =>
    struck === 0
      ? `${count === 1 ? 'One reading' : `${count} readings`}, newest first.`
      : `${count === 1 ? 'One reading' : `${count} readings`}, newest first; ${struck} struck out.`,
} as const
