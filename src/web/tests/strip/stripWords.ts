import { smallNumber } from '../../../core/units/smallNumber.ts'
import { TESTS_TITLES } from '../../words.ts'

/** What the strip page says, in English. Numbers come in already written for people. */
export const STRIP_WORDS = {
  title: TESTS_TITLES.strip,
  lead: 'A strip of',
  on: 'on',
  of: 'in',
  bands: 'How many bands',
  asBest: 'as many bands as tell most',
  count: (count: number): string => `${smallNumber(count)} bands`,
  medium: 'Medium',
  working: 'Weighing which doses tell most …',
  nothing: 'The doses of the strip will stand here.',
  now: (good: number): string => (good === 1 ? '1 screen in 10' : `${good} screens in 10`),
  nowMore: (value: string, low: string, high: string): string =>
    ` would come out good today, at ${value}: ${low} to ${high}.`,
  after: (good: number): string => `${good} in 10`,
  afterMore: (minutes: string, low: string, high: string): string =>
    ` after this strip, ${minutes} minutes: known to within ${low} to ${high}.`,
  twoFilms: (good: number, minutes: string, low: string, high: string): string =>
    `With a second film beside the first, made apart from it and under the same card: ${good} in 10, known to within ${low} to ${high}, ${minutes} minutes. Tell each as a strip of its own, on the same screen.`,
  steps: 'Uncover, give, go on',
  stepFirst: (band: string): string => `Cover all but band ${band}.`,
  step: (band: string): string => `Uncover band ${band} as well.`,
  stepLast: (band: string): string => `Uncover band ${band}, the last.`,
  edge: (mm: string): string => `Card’s edge at ${mm} from the film’s top.`,
  edgeOff: 'Take the card off.',
  give: 'Give',
  more: (unit: string): string => `${unit} more`,
  first: (unit: string): string => unit,
  inAll: (value: string, unit: string): string =>
    `Set the counter afresh each time; in all it gave ${value} ${unit}.`,
  washed: 'Let the lamp run as warm as always. Wash out as always.',
  film: 'The film',
  filmAlt: (count: number, high: string, low: string): string =>
    `The test film: ${count} bands, from ${high} at its top down to ${low}; the card covers all but the first.`,
  card: 'card',
  paper: 'Print it on',
  paperLabel: 'Paper of the test film',
  pdf: 'Fetch the test film',
  tiff: 'as 1-bit TIFF, for a film printer',
  pdfMore: 'At full size: lay a ruler on it before you use it.',
  afterwards: 'Then tell how it came out',
} as const
