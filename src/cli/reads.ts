import { Failure } from '../core/failure.ts'
import { isIn, type Range } from '../core/units/range.ts'
import { isDay } from '../workflow/papers/dayWords.ts'

/** How the text after an option becomes a value. */
export type Reads<Value> = Readonly<{
  /** What stands for the value in help: LU, FILE. */
  shown: string
  /** @throws Failure with what was expected and what was written */
  read: (text: string) => Value
}>

type Worded = Readonly<{
  /** What it is, as the sentence begins: 'dose', 'number of bands'. */
  what: string
  /** What it counts, in words: 'light units'; empty where it counts nothing. */
  units: string
  /** A value somebody would type. */
  like: number
  shown: string
}>

const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i

/** A number in plain decimals within a range; `0x10`, `1e400`, `4,2` and nothing at all are refused. */
export function numberIn(range: Range, { what, units, like, shown }: Worded): Reads<number> {
  const kind = range.whole === true ? 'a whole number' : 'a number'
  const ofUnits = units === '' ? '' : ` of ${units}`
  return {
    shown,
    read: (text) => {
      if (!DECIMAL.test(text) || !Number.isFinite(Number(text))) {
        const comma = /^[+-]?\d+,\d+$/.test(text) ? ' Write a point for the comma.' : ''
        throw wrong(`The ${what} must be ${kind}${ofUnits}, like ${like}.${youWrote(text)}${comma}`)
      }
      const value = Number(text)
      if (!isIn(value, range)) {
        const inUnits = units === '' ? '' : ` ${units}`
        throw wrong(
          `The ${what} must be ${kind} from ${range.low} to ${range.high}${inUnits}.${youWrote(text)}`,
        )
      }
      return value
    },
  }
}

/** A file or folder by its path; whether it is there is looked at by who opens it. */
export function path({ what, shown }: Readonly<{ what: string; shown: string }>): Reads<string> {
  return {
    shown,
    read: (text) => {
      if (text.trim() === '') throw wrong(`The ${what} must be a path, like ${shown}; it is empty.`)
      if (text.includes('\0')) throw wrong(`The ${what} must be a path without a null character.`)
      return text
    },
  }
}

/** A name, a day or another word that whoever uses it understands. */
export function word({ what, shown }: Readonly<{ what: string; shown: string }>): Reads<string> {
  return {
    shown,
    read: (text) => {
      if (text.trim() === '') throw wrong(`The ${what} is empty; write it in place of ${shown}.`)
      return text
    },
  }
}

/** One of a few words. */
export function oneOf<Word extends string>(
  words: readonly Word[],
  { what, shown }: Readonly<{ what: string; shown: string }>,
): Reads<Word> {
  return {
    shown,
    read: (text) => {
      const word = words.find((known) => known === text)
      if (word === undefined) {
        throw wrong(`The ${what} must be one of ${words.join(', ')}.${youWrote(text)}`)
      }
      return word
    },
  }
}

/** A day, as 2026-11-09. */
export function dayOf(what: string): Reads<string> {
  return {
    shown: 'YYYY-MM-DD',
    read: (text) => {
      if (!isDay(text)) throw wrong(`The ${what} must be a day, like 2026-11-09.${youWrote(text)}`)
      return text
    },
  }
}

export type Sweep = Readonly<{ low: number; high: number; count: number }>

/** LOW:HIGH:COUNT, each held to its own reader. */
export function sweepOf(
  ends: Reads<number>,
  { count, like }: Readonly<{ count: Reads<number>; like: string }>,
): Reads<Sweep> {
  return {
    shown: 'LOW:HIGH:COUNT',
    read: (text) => {
      const [low, high, many, more] = text.split(':')
      if (low === undefined || high === undefined || many === undefined || more !== undefined) {
        throw wrong(
          `The sweep must be two doses and a count with colons between, like ${like}.${youWrote(text)}`,
        )
      }
      const sweep = { low: ends.read(low), high: ends.read(high), count: count.read(many) }
      if (!(sweep.low < sweep.high)) {
        throw wrong(
          `The sweep must run from a lower to a higher dose, like ${like}.${youWrote(text)}`,
        )
      }
      return sweep
    },
  }
}

function youWrote(text: string): string {
  return text === '' ? ' You wrote nothing.' : ` You wrote '${shortened(text)}'.`
}

/** Enough of what was written to know it again, on one line and without control characters. */
export function shortened(text: string): string {
  const clean = [...text].map((letter) => (/\p{C}/u.test(letter) ? '?' : letter))
  return clean.length > 60 ? `${clean.slice(0, 57).join('')}…` : clean.join('')
}

function wrong(message: string): Failure {
  return new Failure('wrong input', message)
}
