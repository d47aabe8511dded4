import pg from 'pg'
import { Failure } from '../../core/failure.ts'
import { diskFull } from '../folder/refused.ts'
import { CONSTRAINTS } from './constraints.ts'

/** The part of a database error that says what happened; both engines give it. */
type DatabaseError = Error &
  Readonly<{
    code?: string
    constraint?: string
    table?: string
    column?: string
    severity?: string
  }>

const UNIQUE = '23505'
const FOREIGN_KEY = '23503'
const BROKEN_CONTRACTS = new Set(['23502', '23514', '22003', '22P02', '22001', '22007', '22008'])
const DISK_FULL = '53100'
const READ_ONLY = '25006'

/**
 * What a query failed with, in our three kinds: a conflict with what the shop holds, a world that
 * failed, or a broken contract of ours (a RangeError). Anything else stays what it is: a bug.
 *
 * @param sql the query
 */
export function sqlFailure(error: unknown, sql = ''): unknown {
  if (!isDatabaseError(error)) return connectionLost(error)
  const { code = '', constraint = '', table = '' } = error
  if (error.severity === 'FATAL' || error.severity === 'PANIC') return stopped(error)
  if (code === FOREIGN_KEY) return brokenReference(error, sql)
  if (code === UNIQUE) {
    const { field, sentence } = CONSTRAINTS[constraint] ?? { sentence: UNKNOWN_CONFLICT }
    return new Failure('conflict', sentence, { cause: error, ...(field && { field }) })
  }
  if (code === DISK_FULL) return diskFull('the database', error)
  if (code === READ_ONLY) {
    const message = 'The database may only be read: give Yellowroom the right to write there.'
    return new Failure('cannot write', message, { cause: error })
  }
  if (BROKEN_CONTRACTS.has(code)) {
    const what = [table, error.column ?? constraint].filter((part) => part !== '').join('.')
    return new RangeError(`${what === '' ? 'a value' : what}: ${error.message}`, { cause: error })
  }
  return error
}

const UNKNOWN_CONFLICT = 'The shop has one like this already: look at it again.'

/** A removal meets what still names it; anything else names what is not there. */
function brokenReference(error: DatabaseError, sql: string): Failure {
  const { constraint = '', table = '' } = error
  const column = constraint.replace(`${table}_`, '').replace(/_fkey$/, '')
  const named = column.endsWith('_blob') ? 'file' : column.replace(/_id$/, '').replace(/_/g, ' ')
  if (/^\s*delete\b/i.test(sql)) {
    const message = `It cannot be removed: ${anA(table.replace(/_/g, ' '))} still belongs to it.`
    return new Failure('conflict', message, { cause: error })
  }
  const field = column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase())
  const message = `There is no such ${named} in this shop; it may have been removed since the page was drawn.`
  return new Failure('not found', message, { field, cause: error })
}

function anA(word: string): string {
  return /^[aeiou]/.test(word) ? `an ${word}` : `a ${word}`
}

/** The embedded database says why in a Failure of its own; a server in its words. */
function stopped(error: DatabaseError): Failure {
  if (error.cause instanceof Failure) return error.cause
  const message = `The database server broke off (${error.message}): try again when it runs.`
  return new Failure('world failed', message, { cause: error })
}

function isDatabaseError(error: unknown): error is DatabaseError {
  return (
    error instanceof pg.DatabaseError ||
    (error instanceof Error && 'severity' in error && 'code' in error)
  )
}

const LOST =
  /Connection terminated|ECONNREFUSED|ECONNRESET|EPIPE|ENOTFOUND|ETIMEDOUT|timeout exceeded/

function connectionLost(error: unknown): unknown {
  if (!(error instanceof Error) || error instanceof Failure) return error
  const code = 'code' in error ? String(error.code) : ''
  if (!LOST.test(`${code} ${error.message}`)) return error
  const message = 'The database server does not answer: try again when it runs.'
  return new Failure('world failed', message, { cause: error })
}
