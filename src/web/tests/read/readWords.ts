import type { Outcome } from '../../../api/shop.ts'
import { TESTS_TITLES } from '../../words.ts'

/** What telling a reading says, in English. Numbers come in already written for people. */
export const READ_WORDS = {
  title: { wedge: 'What did the wedge say?', strip: TESTS_TITLES.read, outcome: TESTS_TITLES.read },
  kinds: { wedge: 'a wedge', strip: 'a strip', outcome: 'a screen' },
  kindsLabel: 'What is told',
  fetching: 'Fetching screens and lamps …',
  on: 'On',
  of: 'of',
  onBase: 'on',
  screen: 'Screen',
  anyScreen: 'some screen',
  medium: 'Medium',
  someMedium: 'some medium',
  base: 'Base',
  sentence: {
    of: 'Of',
    drawnOn: 'on',
    on: 'on',
    under: 'under',
    with: 'with',
    lit: ', lit',
    dot: '.',
  },
  lit: 'The lamp was lit',
  froms: { hot: 'while it was hot', cold: 'from cold' },
  place: 'Where it lay on the glass',
  day: 'Exposed on',
  dose: 'Dose as it was set',
  note: 'Anything else worth knowing',
  noteExample: 'such as “washed longer than usual”',
  save: 'Take it down',
  saving: 'Taking it down …',
  wedgeHow:
    'Tap the last step that is solid, then the first that is washed clear. Step 1 had the most light.',
  wedgeMore:
    'Solid: like the ground beside it, and not soft. Clear: nothing of it stayed. Wait until the screen is dry.',
  lastSolid: 'Last solid step',
  firstClear: 'First clear step',
  stepIs: { solid: 'solid', part: 'in part', clear: 'clear', open: 'not told' },
  step: (number: number, is: string): string => `Step ${number}: ${is}`,
  noneSolid: 'Not one is solid',
  wedgeSays: (solid: number, clear: number | null): string =>
    clear === null
      ? `Step ${solid} is the last solid one.`
      : `Step ${solid} is the last solid one, step ${clear} is clear.`,
  wedgeNoneSolid: 'Not one step is solid.',
  otherWedge: 'My wedge is another one',
  usualWedge: 'A wedge of 21 steps, each 0.15 denser than the one before, is meant.',
  steps: 'How many steps',
  firstDensity: 'Density of step 1',
  increment: 'Denser by, each step',
  stripHow: 'One picture for each band: the one it looks most like, held to the light.',
  stripFrom: (day: string): string => `The bands of the strip you planned on ${day} stand here.`,
  band: (number: number): string => `Band ${number}`,
  bandDose: (number: number): string => `Dose of band ${number}`,
  bandGrade: (number: number, dose: string): string =>
    dose === '' ? `How band ${number} came out` : `How band ${number}, ${dose}, came out`,
  moreBands: 'One more band',
  fewerBands: 'One band less',
  grade: 'How it came out',
  byPicture: 'one picture each',
  byTicks: 'two ticks each: ground and marks',
  gradeBy: 'Tell it by',
  grades: {
    'washed off': 'washed off',
    soft: 'soft inside',
    good: 'good',
    filling: 'filling in',
    filled: 'filled',
  } satisfies Record<Outcome, string>,
  ground: 'Ground',
  marks: 'Marks',
  grounds: { 'washed off': 'washed off', soft: 'soft', sound: 'sound' },
  markings: { open: 'open', filling: 'filling', filled: 'filled' },
  wrong: {
    dose: (written: string): string =>
      written === ''
        ? 'Say the dose as it was set on the counter, like 60.'
        : `The dose must be a number, like 60. You wrote “${written}”.`,
    lastSolid: 'Say the last solid step.',
    step: (written: string, steps: number): string =>
      `A step is a whole number up to ${steps}. You wrote “${written}”.`,
    order: 'The first clear step comes after the last solid one.',
    medium: 'Say which medium it was.',
    grade: 'Say how it came out.',
    bands: 'A strip has two bands at least.',
    wedge: (written: string): string => `That must be a number, like 21. You wrote “${written}”.`,
  },
  taken: 'Taken down',
  moved: 'What it moved',
  unmoved: 'No dose moved: it agrees with what was believed.',
  doubts: 'What is odd about it',
  another: 'Tell another',
  toReadings: 'Strike it out or look at the others',
} as const
