import type { Reply } from './ask.ts'

/** A question on the page and what is known of it. The last answer stays until there is another. */
export type Asked<Answer> = Readonly<{
  answer: Answer | null
  /** When the answer came. */
  answeredAt: Date | null
  /** So long it was asked for, ms. */
  tookMs: number
  now: 'working' | 'here' | 'refused' | 'opening' | 'no connection'
  /** It takes long enough to say so. */
  slow: boolean
  /** Why it was refused. */
  message: string | null
  field: string | null
}>

export type AskedEvent<Answer> =
  | Readonly<{ kind: 'asked' }>
  | Readonly<{ kind: 'slow' }>
  | Readonly<{ kind: 'reply'; reply: Reply<Answer>; at: Date; tookMs?: number }>

/** What takes longer than this is said. */
export const SLOW_MS = 400
/** After so long it is asked again, where there was no connection. */
export const AGAIN_MS = 4000
/** The same while the records are being opened. */
export const OPENING_MS = 500

export const NOTHING_ASKED: Asked<never> = {
  answer: null,
  answeredAt: null,
  tookMs: 0,
  now: 'working',
  slow: false,
  message: null,
  field: null,
}

export function nextAsked<Answer>(state: Asked<Answer>, event: AskedEvent<Answer>): Asked<Answer> {
  switch (event.kind) {
    case 'asked':
      return isWaiting(state)
        ? state
        : { ...state, now: 'working', slow: false, message: null, field: null }
    case 'slow':
      return state.now === 'working' || state.now === 'opening' ? { ...state, slow: true } : state
    case 'reply':
      return replied(state, event)
  }
}

function replied<Answer>(
  state: Asked<Answer>,
  { reply, at, tookMs = 0 }: Readonly<{ reply: Reply<Answer>; at: Date; tookMs?: number }>,
): Asked<Answer> {
  const calm = { ...state, slow: false, message: null, field: null }
  switch (reply.kind) {
    case 'answer':
      return { ...calm, answer: reply.answer, answeredAt: at, tookMs, now: 'here' }
    case 'refused':
      return { ...calm, now: 'refused', message: reply.message, field: reply.field }
    case 'opening':
      return { ...state, now: 'opening' }
    case 'no connection':
      return { ...calm, now: 'no connection' }
  }
}

/** Asked again by itself: the page goes on saying what it waits for. */
function isWaiting({ now }: Asked<unknown>): boolean {
  return now === 'opening' || now === 'no connection'
}
