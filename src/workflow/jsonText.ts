import { Failure } from '../core/failure.ts'

/** What stands in a string: an escape, or so many plain letters as a pattern takes without its stack growing. */
const LETTERS = /[^"\\\u0000-\u001f]{1,1000}|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y
const PLAIN = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y
const SPACE = /[ \t\r\n]*/y
const DEEPEST = 64

/**
 * The value a JSON text stands for.
 *
 * `JSON.parse` does the work; but not every Node.js says where a text goes wrong, and none minds a
 * key that stands twice, so a walk over the text finds both.
 *
 * @param named what the text is, as a sentence begins: 'The setup'
 * @throws Failure 'unreadable file' with line and column, 'wrong input' for a doubled key
 */
export function valueOfJson(text: string, { named }: Readonly<{ named: string }>): unknown {
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text
  if (plain.trim() === '') throw new Failure('unreadable file', `${named} is empty; {} would do.`)
  const fault = firstFault(plain)
  if (fault !== null) {
    const where = placeIn(plain, fault.at)
    throw new Failure(fault.kind, `${named} ${fault.what} ${where}: ${fault.advice}.`)
  }
  return JSON.parse(plain)
}

type Fault = Readonly<{
  at: number
  kind: 'unreadable file' | 'wrong input'
  what: string
  advice: string
}>

/** One pass by the grammar of JSON (RFC 8259); null when the text keeps it and doubles no key. */
function firstFault(text: string): Fault | null {
  let at = 0
  let found: Fault | null = null

  function value(depth: number): boolean {
    if (depth > DEEPEST) return stop(`nothing is nested more than ${DEEPEST} deep`)
    const first = text[at]
    if (first === '[') return list(']', () => value(depth + 1))
    if (first !== '{')
      return takeString() !== null || take(PLAIN) !== null || stop('a value is wanted')
    const keys = new Set<string>()
    return list('}', () => member(keys) && value(depth + 1))
  }

  function list(end: ']' | '}', item: () => boolean): boolean {
    at += 1
    take(SPACE)
    if (takeLetter(end)) return true
    while (item()) {
      take(SPACE)
      if (takeLetter(end)) return true
      if (!takeLetter(',')) return stop(`a comma or ${end} is wanted`)
      take(SPACE)
    }
    return false
  }

  function member(keys: Set<string>): boolean {
    const began = at
    const written = takeString()
    if (written === null) return stop('a key in double quotes is wanted')
    const key = String(JSON.parse(written))
    if (keys.has(key)) {
      const advice = 'give it once'
      found = {
        at: began,
        kind: 'wrong input',
        what: `has the key ${written} a second time`,
        advice,
      }
      return false
    }
    keys.add(key)
    take(SPACE)
    if (!takeLetter(':')) return stop('a colon is wanted after the key')
    take(SPACE)
    return true
  }

  function take(pattern: RegExp): string | null {
    pattern.lastIndex = at
    const match = pattern.exec(text)
    if (match === null) return null
    at = pattern.lastIndex
    return match[0]
  }

  function takeString(): string | null {
    const began = at
    if (!takeLetter('"')) return null
    for (let part = take(LETTERS); part !== null; ) part = take(LETTERS)
    if (takeLetter('"')) return text.slice(began, at)
    at = began
    return null
  }

  function takeLetter(letter: string): boolean {
    if (text[at] !== letter) return false
    at += 1
    return true
  }

  function stop(advice: string): false {
    found ??= { at, kind: 'unreadable file', what: 'is not JSON', advice }
    return false
  }

  take(SPACE)
  if (value(0)) {
    take(SPACE)
    if (at < text.length) stop('nothing may follow the value')
  }
  return found
}

function placeIn(text: string, at: number): string {
  const before = text.slice(0, at).split('\n')
  return `at line ${before.length}, column ${(before.at(-1) ?? '').length + 1}`
}
