import type { Grade, Grading, GroundGrade, MarksGrade } from '../core/calibration/belief/grades.ts'
import { nearest } from './nearest.ts'

/** How a screen came out, or what is wrong with the words, as a sentence after `Line 7: `. */
export type OutcomeRead = Readonly<{ grading: Grading } | { wrong: string }>

const GRADE_WORDS: Readonly<Record<Grade, readonly string[]>> = {
  'washed off': [
    'washed off',
    'washed away',
    'wash off',
    'fell off',
    'came off',
    'peeled off',
    'peeled',
    'lost',
    'gone',
  ],
  soft: ['soft', 'slimy', 'slime', 'soft inside', 'too soft', 'tacky', 'sticky', 'weak'],
  good: ['good', 'ok', 'okay', 'fine', 'well', 'perfect', 'great', 'excellent', 'all good'],
  filling: [
    'filling',
    'filling in',
    'filling up',
    'closing',
    'partly filled',
    'partly blocked',
    'partly closed',
    'half filled',
    'starting to fill',
    'slightly filled',
    'thin marks filled',
    'fine lines filled',
    'fine lines blocked',
  ],
  filled: [
    'filled',
    'filled in',
    'filled up',
    'blocked',
    'blocked up',
    'closed',
    'closed up',
    'shut',
    'did not open',
    "didn't open",
    'not open',
  ],
}

/** Words of the ground and of the marks where both are told. */
const GROUND_WORDS: Readonly<Record<GroundGrade, readonly string[]>> = {
  'washed off': GRADE_WORDS['washed off'],
  soft: [...GRADE_WORDS.soft, 'soft ground', 'ground soft'],
  sound: ['sound', 'hard', 'firm', 'sound ground', 'ground sound', 'ground good'],
}
const MARKS_WORDS: Readonly<Record<MarksGrade, readonly string[]>> = {
  open: ['open', 'clear', 'clean', 'all open', 'marks open', 'lines open'],
  filling: [...GRADE_WORDS.filling, 'marks filling', 'lines filling'],
  filled: [...GRADE_WORDS.filled, 'marks filled', 'lines filled'],
}

/** Words that fit two grades: what to ask. */
const TWO_WAYS: Readonly<Record<string, string>> = {
  overexposed: 'filling or filled',
  'over exposed': 'filling or filled',
  over: 'filling or filled',
  underexposed: 'washed off or soft',
  'under exposed': 'washed off or soft',
  under: 'washed off or soft',
  'washed out': 'washed off, or good',
}

const AND = /\s*(?:[,;+&/]|\band\b|\bbut\b|\bwith\b)\s*/

/** Plain words as one of the five grades, or as two ticks where ground and marks are both told. */
export function readOutcome(cell: string): OutcomeRead {
  if (cell === '') return { wrong: `the outcome is missing: write ${choice()}.` }
  const text = plainWords(cell)
  const grade = keyOf(GRADE_WORDS, text)
  if (grade !== null) return { grading: { grade } }
  const ticks = ticksOf(text.split(AND).filter((part) => part !== ''))
  if (ticks !== null) return { grading: ticks }
  const either = Object.hasOwn(TWO_WAYS, text) ? TWO_WAYS[text] : undefined
  if (either !== undefined) return { wrong: `'${cell}' may be ${either}: write which it was.` }
  const guess = nearest(text, Object.values(GRADE_WORDS).flat())
  const advice = guess === undefined ? '' : ` Did you mean ${guess}?`
  return { wrong: `the outcome must be ${choice()}. It says '${cell}'.${advice}` }
}

function ticksOf(parts: readonly string[]): Grading | null {
  if (parts.length !== 2) return null
  const ground = parts.map((part) => keyOf(GROUND_WORDS, part)).find((found) => found !== null)
  const marks = parts.map((part) => keyOf(MARKS_WORDS, part)).find((found) => found !== null)
  if (ground === undefined || marks === undefined) return null
  return ground === 'washed off' ? { ground } : { ground, marks }
}

function keyOf<Key extends string>(
  words: Readonly<Record<Key, readonly string[]>>,
  text: string,
): Key | null {
  for (const key of Object.keys(words) as Key[]) if (words[key].includes(text)) return key
  return null
}

function plainWords(cell: string): string {
  return cell
    .toLowerCase()
    .replace(/’/g, "'")
    .replace(/[-_]+/g, ' ')
    .replace(/[.!?]+$/g, '')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^(it )?(came out|was|is|all|very|mostly) /, '')
}

function choice(): string {
  const grades = Object.keys(GRADE_WORDS)
  return `${grades.slice(0, -1).join(', ')} or ${grades.at(-1) ?? ''}`
}
