import type { z } from 'zod'
import { Failure } from '../../core/failure.ts'
import { fieldWords, isListName, partsWords, unitWords } from './fieldWords.ts'

type Issue = z.core.$ZodIssue

/**
 * What was sent, read by its schema.
 *
 * @throws Failure 'wrong input' in one sentence, with the field it is about
 */
export function asked<Value>(schema: z.ZodType<Value>, value: unknown): Value {
  const read = schema.safeParse(value, { reportInput: true })
  if (read.success) return read.data
  const [first] = read.error.issues
  if (first === undefined) throw new Failure('wrong input', 'This is nothing that can be asked.')
  throw refusalOf(meant(asWritten(first, value)))
}

/** A query's text that is no number, as it was written and not as what became of it. */
function asWritten(issue: Issue, value: unknown): Issue {
  if (typeof issue.input !== 'number' || Number.isFinite(issue.input)) return issue
  let input = value
  for (const key of issue.path) input = (input as Readonly<Record<PropertyKey, unknown>>)?.[key]
  return { ...issue, input } as Issue // what was written is a text, whatever was expected
}

/** Nothing says which of several forms is meant; the words for them stand beside it. */
type Undiscriminated = Readonly<{ discriminator: string; options?: readonly unknown[] }>

/** Where one of several forms was asked for: what is amiss with the one that comes nearest. */
function meant(issue: Issue): Issue {
  if (issue.code !== 'invalid_union') return issue
  if (issue.discriminator !== undefined && issue.errors.length === 0) {
    const { discriminator, options = [] } = issue as unknown as Undiscriminated
    const input = (issue.input as Readonly<Record<string, unknown>> | null)?.[discriminator]
    const values = options.map((option) => String(option))
    return { code: 'invalid_value', values, path: issue.path, message: '', input }
  }
  const [nearest] = issue.errors.toSorted((a, b) => a.length - b.length)
  const inner = nearest?.[0]
  return inner === undefined ? issue : meant({ ...inner, path: [...issue.path, ...inner.path] })
}

function refusalOf(issue: Issue): Failure {
  if (issue.code === 'unrecognized_keys') {
    const [key = ''] = issue.keys
    const field = [...issue.path, key].join('.')
    const message = `“${shown(field)}” is nothing that is asked for here: leave it out, or check its name.`
    return new Failure('wrong input', message, { field })
  }
  const field = issue.path.join('.')
  const message = `${sentenceOf(issue)}.`
  return new Failure('wrong input', message, field === '' ? {} : { field })
}

function sentenceOf(issue: Issue): string {
  const { path, input } = issue
  if ((issue.code === 'too_small' || issue.code === 'too_big') && Array.isArray(input)) {
    const few = issue.code === 'too_small'
    const needed = few ? `at least ${issue.minimum}` : `at most ${issue.maximum}`
    const here = input.length === 1 ? 'here is 1' : `here are ${input.length}`
    return `Of ${partsWords(path)} ${needed} are ${few ? 'needed' : 'taken'}; ${here}`
  }
  if (issue.code === 'custom' && !issue.message.startsWith('Invalid')) {
    return `${fieldSaid(fieldWords(path))} is not right: ${issue.message}`
  }
  const isNumber = issue.code === 'invalid_type' && issue.expected === 'number'
  const isBound = issue.code === 'too_small' || issue.code === 'too_big'
  const counted = isListName(path) && (isBound || isNumber)
  const what = fieldSaid(counted ? `the number of ${partsWords(path)}` : fieldWords(path))
  const unit = isBound && issue.origin !== 'string' ? unitWords(path) : ''
  return `${what} must be ${expected(issue)}${unit}; ${got(input)}`
}

function fieldSaid(words: string): string {
  const what = words === '' ? 'what was sent' : shown(words)
  return `${what[0]?.toUpperCase() ?? ''}${what.slice(1)}`
}

function expected(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return TYPES[issue.expected] ?? `of the kind ${issue.expected}`
    case 'invalid_value':
      return issue.values.length === 1
        ? `“${String(issue.values[0])}”`
        : `one of ${issue.values.map((value) => `“${String(value)}”`).join(', ')}`
    case 'too_small':
      return issue.origin === 'string'
        ? `a text of at least ${lettersOf(issue.minimum)}`
        : `at least ${issue.minimum}`
    case 'too_big':
      return issue.origin === 'string'
        ? `a text of at most ${lettersOf(issue.maximum)}`
        : `at most ${issue.maximum}`
    case 'invalid_format':
      if (issue.format === 'date') return 'a day like 2026-11-28'
      // an example, where the contract gives one
      return issue.message.startsWith('Invalid') ? 'written otherwise' : `like ${issue.message}`
    default:
      return 'written otherwise'
  }
}

const TYPES: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text',
  boolean: 'true or false',
  object: 'a JSON object, like {}',
  array: 'a JSON list, like []',
}

function got(input: unknown): string {
  if (input === undefined) return 'it is missing'
  if (input === null) return 'it is empty'
  if (typeof input === 'string') return `it is “${shown(input)}”`
  if (typeof input === 'number') return `it is ${input}`
  return `it is ${shown(JSON.stringify(input))}`
}

function lettersOf(count: number | bigint): string {
  return count === 1 || count === 1n ? 'one letter' : `${count} letters`
}

/** Somebody else's text in a sentence of ours: short, and on its line. */
function shown(text: string): string {
  const plain = text.replace(/[\p{C}\s]+/gu, ' ')
  return plain.length > 60 ? `${plain.slice(0, 59)}…` : plain
}
