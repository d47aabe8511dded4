import { Failure } from '../../core/failure.ts'

/** A path in a sentence: in quotes, without characters that move a terminal's cursor. */
export function named(path: string): string {
  return `"${path.replace(/\p{C}/gu, '?')}"`
}

/** The system's own word for why a call failed, such as ENOENT; empty where it has none. */
export function systemCode(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : ''
  return typeof code === 'string' ? code : ''
}

const FULL = new Set(['ENOSPC', 'EDQUOT', 'EFBIG'])
const CLOSED = new Set(['EACCES', 'EPERM', 'EROFS'])
const IN_THE_WAY = new Set(['ENOTDIR', 'EEXIST', 'EISDIR'])

/** The sentence for a disk that has no room left; `what` lies on it, in words. */
export function diskFull(what: string, cause?: unknown): Failure {
  const message = `The disk that holds ${what} is full: make room there, then try again; what was saved before is safe.`
  return new Failure('cannot write', message, { cause })
}

/** The sentence for a folder that does not let itself be written. */
export function readOnly(folder: string, cause?: unknown): Failure {
  const message = `Yellowroom may not write in ${named(folder)}: give its user the right to write there, or name another folder in YELLOWROOM_DATA.`
  return new Failure('cannot write', message, { cause })
}

/** What a system call on the shop's folder failed with, as a sentence; a Failure stays as it is. */
export function refusedBy(folder: string, cause: unknown): Failure {
  if (cause instanceof Failure) return cause
  const code = systemCode(cause)
  if (FULL.has(code)) return diskFull(named(folder), cause)
  if (CLOSED.has(code)) return readOnly(folder, cause)
  if (IN_THE_WAY.has(code)) {
    const message = `${named(folder)} is no folder, or lies in something that is none: name another in YELLOWROOM_DATA.`
    return new Failure('cannot write', message, { cause })
  }
  if (code === 'ENOENT' || code === 'ENAMETOOLONG' || code === 'ELOOP') {
    const message = `There cannot be a folder ${named(folder)} (${code}): name another in YELLOWROOM_DATA.`
    return new Failure('cannot write', message, { cause })
  }
  const why = code === '' ? String(cause instanceof Error ? cause.message : cause) : code
  const message = `The disk failed at ${named(folder)} (${why}): copy the folder to another disk and start there.`
  return new Failure('world failed', message, { cause })
}
