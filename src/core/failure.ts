/**
 * What can fail in the world or in what somebody handed us. Broken contracts inside the program
 * are RangeErrors; answers a printer must see are returned.
 */
export type FailureKind =
  /** An option, a setting or a file's content cannot be what was meant. */
  | 'wrong input'
  /** The file named is not there. */
  | 'missing file'
  /** It is there, but this is no picture we can read, or it is damaged. */
  | 'unreadable file'
  /** More pixels, bytes or time than we take on. */
  | 'too large'
  /** The file to be written exists and nobody said to replace it. */
  | 'already there'
  /** The place to write to refuses: no such folder, no right, no space. */
  | 'cannot write'
  /** No record in the shop has that name or number. */
  | 'not found'
  /** It would break what the shop holds already: a tag twice, a fabric that screens still carry. */
  | 'conflict'
  /** Another Yellowroom has this shop's folder open. */
  | 'shop in use'
  /** The disk, the system or another program failed while we worked. */
  | 'world failed'

/** For each kind the command's exit code and the web server's status: a new kind needs both. */
export const ANSWERS: Readonly<Record<FailureKind, Readonly<{ exit: 2 | 3; status: number }>>> = {
  'wrong input': { exit: 2, status: 422 },
  'missing file': { exit: 2, status: 404 },
  'unreadable file': { exit: 2, status: 422 },
  'too large': { exit: 2, status: 413 },
  'already there': { exit: 2, status: 409 },
  'cannot write': { exit: 3, status: 507 },
  'not found': { exit: 2, status: 404 },
  conflict: { exit: 2, status: 409 },
  'shop in use': { exit: 3, status: 503 },
  'world failed': { exit: 3, status: 500 },
}

/** One sentence for people (what, where, what to do), a kind for programs, the field if there is one. */
export class Failure extends Error {
  readonly kind: FailureKind
  readonly field: string | undefined

  constructor(
    kind: FailureKind,
    message: string,
    { field, cause }: Readonly<{ field?: string; cause?: unknown }> = {},
  ) {
    super(message, cause === undefined ? undefined : { cause })
    this.name = 'Failure'
    this.kind = kind
    this.field = field
  }
}

export function isFailure(error: unknown, kind?: FailureKind): error is Failure {
  return error instanceof Failure && (kind === undefined || error.kind === kind)
}
