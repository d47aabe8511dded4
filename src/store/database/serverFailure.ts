import { Failure } from '../../core/failure.ts'
import { systemCode } from '../folder/refused.ts'

/** Why a database server cannot be used, without its password. */
export function serverFailure(cause: unknown, url: string): Failure {
  const code = systemCode(cause)
  const where = placeOf(url)
  const why = REASONS[code] ?? (code.startsWith('28') ? REFUSED : null)
  const message =
    why === null
      ? `The database server${where} does not answer (${code === '' ? wordsOf(cause) : code}): see that it runs, and that DATABASE_URL is right.`
      : `The database server${where} ${why}`
  return new Failure('world failed', message, { cause })
}

const REFUSED = 'refuses this name or password: correct DATABASE_URL.'
const REASONS: Readonly<Record<string, string>> = {
  '3D000': 'has no database of that name: make it there, or correct DATABASE_URL.',
  '53300': 'has no connection left: close other programs that use it, or allow it more.',
}

function placeOf(url: string): string {
  const host = URL.canParse(url) ? new URL(url).host : ''
  return host === '' ? '' : ` at ${host}`
}

function wordsOf(cause: unknown): string {
  return cause instanceof Error ? cause.message : String(cause)
}
