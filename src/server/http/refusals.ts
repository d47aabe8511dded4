import type { Context } from 'hono'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { type Refusal, refusal } from '../../api/shop.ts'
import { ANSWERS, Failure, type FailureKind, isFailure } from '../../core/failure.ts'

/** What only a door can answer: the shop is not open or cannot be, who asks may not, a fault of ours. */
type DoorKind =
  | 'opening'
  | 'shut'
  | 'foreign page'
  | 'wrong token'
  | 'not signed in'
  | 'not yours'
  | 'bug'

const DOOR_STATUS: Readonly<Record<DoorKind, ContentfulStatusCode>> = {
  opening: 503,
  shut: 503,
  'foreign page': 403,
  'wrong token': 401,
  'not signed in': 403,
  'not yours': 403,
  bug: 500,
}
const RETRY_SEC = '1'

/** A refusal that is no Failure of the shop's. */
export class DoorRefusal extends Error {
  readonly kind: DoorKind

  constructor(kind: DoorKind, message: string) {
    super(message)
    this.name = 'DoorRefusal'
    this.kind = kind
  }
}

export const OPENING = 'The shop is being opened: ask again in a moment.'

/** The one place where whatever was thrown becomes a refusal of the contract. */
export function refused(context: Context, thrown: unknown): Response {
  const { error, status } = answerTo(thrown)
  if (status === 503) context.header('retry-after', RETRY_SEC)
  if (status === 401) context.header('www-authenticate', 'Bearer')
  context.header('cache-control', 'no-store')
  return context.json<Refusal>({ error }, status)
}

function answerTo(
  thrown: unknown,
): Readonly<{ error: Refusal['error']; status: ContentfulStatusCode }> {
  if (thrown instanceof DoorRefusal) {
    const { kind, message } = thrown
    return { error: { kind, message }, status: DOOR_STATUS[kind] }
  }
  if (isFailure(thrown)) {
    const { kind, message, field } = thrown
    const error = { kind, message: onOneLine(message), ...(field === undefined ? {} : { field }) }
    return { error, status: ANSWERS[kind].status as ContentfulStatusCode }
  }
  process.stderr.write(`${thrown instanceof Error ? thrown.stack : String(thrown)}\n`)
  const message =
    'This is a fault in Yellowroom, not in what you asked: try again, or start it anew.'
  return { error: { kind: 'bug', message }, status: 500 }
}

/** What was sent may come back in a sentence: nothing in it may break the line. */
function onOneLine(message: string): string {
  return message.replace(/[\p{C}\s]+/gu, ' ')
}

/** A Failure again from what another process said of one. */
export function failureFrom({ error }: Refusal): Failure {
  const { kind, message, field } = refusal.parse({ error }).error
  const known = kind in ANSWERS ? (kind as FailureKind) : 'world failed'
  return new Failure(known, message, field === undefined ? {} : { field })
}
