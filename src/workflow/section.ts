import { Failure } from '../core/failure.ts'
import { isIn, type Range } from '../core/units/range.ts'
import { didYouMean } from './nearest.ts'

/** One object of an input file: its keys are asked for by name, and each is held to its range. */
export type Section = Readonly<{
  /** @throws Failure unless the number is in its range; `absent` where the key is not given */
  number: (key: string, asked: Readonly<{ range: Range; absent: number }>) => number
  /** @throws Failure unless it is one of the words; the first where the key is not given */
  word: <Word extends string>(key: string, words: readonly Word[]) => Word
  /** The object under a key, empty where it is not given. */
  inner: (key: string) => Section
  /** @throws Failure naming the key that is none of these, and the nearest that is */
  allow: (keys: readonly string[], elsewhere?: Readonly<Record<string, string>>) => void
  has: (key: string) => boolean
  /** What stands under a key, unread; undefined where the key is not given. */
  raw: (key: string) => unknown
  /** The refusal of what stands there, for what it must be: 'must be a name like "big lamp"'. */
  refusal: (key: string, must: string) => Failure
}>

/**
 * @param named what the file is, within a sentence: 'the setup'
 * @param path keys on the way here, with dots; empty at the top
 * @throws Failure when the value is no object
 */
export function sectionOf(
  value: unknown,
  { named, path = '' }: Readonly<{ named: string; path?: string }>,
): Section {
  const values = fieldsOf(value, { named, path })
  const full = (key: string): string => (path === '' ? key : `${path}.${key}`)
  const wrong = (key: string, sentence: string): Failure =>
    new Failure('wrong input', sentence, { field: full(key) })
  const says = (key: string): string => `${named} says ${shown(values[key])}.`

  return {
    number: (key, { range, absent }) => {
      if (!Object.hasOwn(values, key)) return absent
      const given = values[key]
      if (typeof given !== 'number' || !isIn(given, range)) {
        const unit = range.unit === '' ? '' : ` ${range.unit}`
        const kind = range.whole === true ? 'a whole number' : 'a number'
        const ends = `from ${range.low} to ${range.high}${unit}, like ${absent}`
        throw wrong(key, `${full(key)} must be ${kind} ${ends}; ${says(key)}`)
      }
      return given
    },
    word: (key, words) => {
      const [first] = words
      if (first === undefined) throw new RangeError(`${key}: expected words, got none`)
      if (!Object.hasOwn(values, key)) return first
      const word = words.find((known) => known === values[key])
      if (word === undefined) {
        const choice = words.map((known) => `"${known}"`).join(' or ')
        throw wrong(key, `${full(key)} must be ${choice}; ${says(key)}`)
      }
      return word
    },
    inner: (key) => {
      const given = Object.hasOwn(values, key) ? values[key] : {}
      return sectionOf(given, { named, path: full(key) })
    },
    allow: (keys, elsewhere = {}) => {
      for (const key of Object.keys(values)) {
        if (keys.includes(key)) continue
        const reason = Object.hasOwn(elsewhere, key) ? elsewhere[key] : undefined
        if (reason !== undefined) throw wrong(key, `${full(key)} cannot stand here: ${reason}.`)
        const guess = didYouMean(key, keys)
        const advice = guess === '' ? ` Known here: ${keys.join(', ')}.` : guess
        throw wrong(
          shortened(key),
          `${capital(named)} has no key ${full(shortened(key))}.${advice}`,
        )
      }
    },
    has: (key) => Object.hasOwn(values, key),
    raw: (key) => (Object.hasOwn(values, key) ? values[key] : undefined),
    refusal: (key, must) =>
      Object.hasOwn(values, key)
        ? wrong(key, `${full(key)} ${must}; ${says(key)}`)
        : wrong(key, `${full(key)} is missing: it ${must}.`),
  }
}

function fieldsOf(
  value: unknown,
  { named, path }: Readonly<{ named: string; path: string }>,
): Readonly<Record<string, unknown>> {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
    return Object.fromEntries(Object.entries(value))
  }
  const what = path === '' ? capital(named) : path
  const message = `${what} must be an object in braces, like {}; it is ${shown(value)}.`
  throw new Failure('wrong input', message, path === '' ? {} : { field: path })
}

function shown(value: unknown): string {
  if (typeof value === 'number' && !Number.isFinite(value)) return 'a number too large to hold'
  return shortened(JSON.stringify(value) ?? String(value))
}

function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1)
}
