import { Failure } from '../core/failure.ts'
import { isIn, type Range } from '../core/units/range.ts'
import { type Section, sectionOf } from './section.ts'

/** What the sentences about a file of readings call it. */
export const NAMED = 'the file'

const LONGEST_NAME = 200

/** A number under a key; null stands for not given, as programs write it. */
export function numberUnder(
  section: Section,
  key: string,
  { range, like }: Readonly<{ range: Range; like: number }>,
): number | undefined {
  const given = section.raw(key) ?? undefined
  return given === undefined ? undefined : section.number(key, { range, absent: like })
}

/** @throws Failure where it is not given, too */
export function neededNumber(
  section: Section,
  key: string,
  asked: Readonly<{ range: Range; like: number }>,
): number {
  const given = numberUnder(section, key, asked)
  if (given !== undefined) return given
  const { low, high, unit, whole = false } = asked.range
  const kind = whole ? 'a whole number' : 'a number'
  throw section.refusal(
    key,
    `must be ${kind} from ${low} to ${high}${unit === '' ? '' : ` ${unit}`}, like ${asked.like}`,
  )
}

/** A name of the shop's things; a number will do, for screens are often numbered. */
export function nameUnder(section: Section, key: string, like: string): string | undefined {
  const given = section.raw(key) ?? undefined
  if (given === undefined) return undefined
  const text = typeof given === 'number' && Number.isSafeInteger(given) ? String(given) : given
  const must = `must be a name like "${like}"`
  if (typeof text !== 'string' || text.trim() === '') throw section.refusal(key, must)
  if (text.length > LONGEST_NAME) {
    throw section.refusal(key, `${must}, of ${LONGEST_NAME} letters at most`)
  }
  return text.trim()
}

/** @throws Failure where it is not given, too */
export function neededName(section: Section, key: string, like: string): string {
  const given = nameUnder(section, key, like)
  if (given === undefined) throw section.refusal(key, `must be a name like "${like}"`)
  return given
}

/** true or false under a key. */
export function flagUnder(section: Section, key: string): boolean | undefined {
  const given = section.raw(key) ?? undefined
  if (given === undefined || typeof given === 'boolean') return given
  throw section.refusal(key, 'must be true or false')
}

/** One of a few words under a key; undefined where it is not given. */
export function wordUnder<Word extends string>(
  section: Section,
  key: string,
  words: readonly Word[],
): Word | undefined {
  return (section.raw(key) ?? undefined) === undefined ? undefined : section.word(key, words)
}

/** @throws Failure where it is not given, too */
export function neededWord<Word extends string>(
  section: Section,
  key: string,
  words: readonly Word[],
): Word {
  const given = wordUnder(section, key, words)
  if (given !== undefined) return given
  throw section.refusal(key, `must be ${words.map((word) => `"${word}"`).join(' or ')}`)
}

/** The objects of a list, each with the place it stands at: `evidence[3]`. */
export function listUnder(
  section: Section,
  key: string,
  { path, low, high }: Readonly<{ path: string; low: number; high: number }>,
): readonly Readonly<{ section: Section; path: string }>[] {
  const given = section.raw(key) ?? []
  const full = path === '' ? key : `${path}.${key}`
  if (!Array.isArray(given)) throw section.refusal(key, 'must be a list in brackets, like []')
  const values: readonly unknown[] = given
  if (!isIn(values.length, { name: key, low, high, unit: '' })) {
    const message = `${full} must be a list of ${low} to ${high}; ${NAMED} has ${values.length}.`
    throw new Failure(values.length > high ? 'too large' : 'wrong input', message, { field: full })
  }
  return values.map((value, at) => {
    const place = `${full}[${at}]`
    return { section: sectionOf(value, { named: NAMED, path: place }), path: place }
  })
}
