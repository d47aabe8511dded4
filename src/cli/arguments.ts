import { parseArgs } from 'node:util'
import { Failure } from '../core/failure.ts'
import { didYouMean } from '../workflow/nearest.ts'
import { type Reads, shortened } from './reads.ts'

/** What a command takes without a name: FILM. */
export type Place<Value = unknown> = Readonly<{
  name: string
  about: string
  needed: boolean
  reads: Reads<Value>
}>

/** `--name VALUE`, or a switch, which reads nothing. */
export type Option<Value = unknown> = Readonly<{
  name: string
  about: string
  needed: boolean
  reads: Reads<Value> | null
}>

/** What was given for places and options, read and within range. */
export type Given = Readonly<{
  /** undefined when it was not given; a switch is true when given. */
  of: <Value>(asked: Option<Value> | Place<Value>) => Value | undefined
  /** For what is marked as needed: it is there. */
  needs: <Value>(asked: Option<Value> | Place<Value>) => Value
  has: (asked: Option) => boolean
}>

export const JSON_SWITCH: Option<true> = {
  name: 'json',
  about: 'print the answer as one JSON value',
  needed: false,
  reads: null,
}

export const HELP_SWITCH: Option<true> = {
  name: 'help',
  about: 'show this',
  needed: false,
  reads: null,
}

export const FORCE_SWITCH: Option<true> = {
  name: 'force',
  about: 'replace files that are already there',
  needed: false,
  reads: null,
}

type Takes = Readonly<{ name: string; places: readonly Place[]; options: readonly Option[] }>

/**
 * Reads a command's arguments by its own table.
 *
 * `parseArgs` splits them; what is missing, unknown, doubled or of the wrong kind is said in our
 * sentences, with the option's name as the field.
 *
 * @throws Failure 'wrong input'
 */
export function readArguments(command: Takes, args: readonly string[]): Given {
  const options = [...command.options, JSON_SWITCH, HELP_SWITCH]
  const { tokens } = parseArgs({
    args: [...args],
    options: Object.fromEntries(
      options.map(({ name, reads }) => [name, { type: reads === null ? 'boolean' : 'string' }]),
    ),
    strict: false,
    allowPositionals: true,
    tokens: true,
  })
  const values = new Map<Option | Place, unknown>()
  const words: string[] = []
  for (const token of tokens) {
    if (token.kind === 'positional') words.push(token.value)
    if (token.kind !== 'option') continue
    const option = options.find(({ name }) => `--${name}` === token.rawName)
    if (option === undefined) throw unknownOption(command, { written: token.rawName, options })
    if (values.has(option)) throw wrong(option, `--${option.name} stands here twice; give it once.`)
    values.set(option, readOption(option, token))
  }
  if (words.length > command.places.length) throw tooMany(command, words)
  command.places.forEach((place, at) => {
    const word = words[at]
    if (word !== undefined) values.set(place, readNamed(place, place.reads, word))
  })
  for (const asked of [...command.places, ...command.options]) {
    if (asked.needed && !values.has(asked)) throw missing(command, asked)
  }
  return given(values)
}

function readOption(
  option: Option,
  {
    value,
    inlineValue,
  }: Readonly<{ value?: string | undefined; inlineValue?: boolean | undefined }>,
): unknown {
  const { name, reads } = option
  if (reads === null) {
    if (value !== undefined) throw wrong(option, `--${name} takes no value; write --${name} alone.`)
    return true
  }
  const isNextOption = inlineValue === false && value?.startsWith('--') === true
  if (value === undefined || isNextOption) {
    throw wrong(option, `--${name} needs a value after it: --${name} ${reads.shown}.`)
  }
  return readNamed(option, reads, value)
}

function readNamed(asked: Option | Place, reads: Reads<unknown>, text: string): unknown {
  try {
    return reads.read(text)
  } catch (cause) {
    if (cause instanceof Failure)
      throw new Failure(cause.kind, cause.message, { field: asked.name })
    throw cause
  }
}

function unknownOption(
  command: Takes,
  { written, options }: Readonly<{ written: string; options: readonly Option[] }>,
): Failure {
  const names = options.map(({ name }) => name)
  const guess = didYouMean(written.replace(/^-+/, ''), names, '--')
  const advice = guess === '' ? ` 'help ${command.name}' lists them.` : guess
  const message = `${command.name} has no option ${shortened(written)}.${advice}`
  return new Failure('wrong input', message, { field: shortened(written.replace(/^-+/, '')) })
}

function tooMany({ name, places }: Takes, words: readonly string[]): Failure {
  const extra = shortened(words[places.length] ?? '')
  const takes =
    places.length === 0 ? 'nothing' : `only ${places.map((place) => place.name).join(' ')}`
  return new Failure(
    'wrong input',
    `${name} takes ${takes} without an option's name, so '${extra}' is one too many.`,
  )
}

function missing(command: Takes, asked: Option | Place): Failure {
  const isPlace = command.places.some((place) => place === asked)
  const how = isPlace ? asked.name : `--${asked.name} ${asked.reads?.shown ?? ''}`.trimEnd()
  return wrong(asked, `${command.name} needs ${how}: ${asked.about}.`)
}

function wrong({ name }: Option | Place, message: string): Failure {
  return new Failure('wrong input', message, { field: name })
}

function given(values: ReadonlyMap<Option | Place, unknown>): Given {
  // Each value was made by the reader of the very option it is asked by.
  const of = <Value>(asked: Option<Value> | Place<Value>): Value | undefined =>
    values.get(asked) as Value | undefined
  return {
    of,
    needs: <Value>(asked: Option<Value> | Place<Value>): Value => {
      const value = of(asked)
      if (value === undefined) throw new RangeError(`${asked.name}: not marked as needed`)
      return value
    },
    has: (asked) => values.has(asked),
  }
}
