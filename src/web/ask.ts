import { PATHS, type Path } from '../api/paths.ts'
import type { Health, Refusal } from '../api/shop.ts'

/** What came back from the shop's computer. */
export type Reply<Answer> =
  | Readonly<{ kind: 'answer'; answer: Answer }>
  /** One sentence: what, where, what to do. */
  | Readonly<{ kind: 'refused'; message: string; field: string | null }>
  /** It is there, and still opening its records. */
  | Readonly<{ kind: 'opening' }>
  | Readonly<{ kind: 'no connection' }>

/** What is asked of a path by a method, where that is answered so: another answer does not compile. */
export type Question<Answer> =
  | Readonly<{ path: Path<{ GET: Answer }>; method?: 'GET' }>
  | Sent<Answer, 'POST'>
  | Sent<Answer, 'PATCH'>
  | Sent<Answer, 'DELETE'>

type Sent<Answer, Method extends string> = Readonly<{
  path: Path<{ readonly [Key in Method]: Answer }>
  method: Method
  body?: unknown
}>

/** Told to the window when the shop no longer knows who asks. */
export const SIGNED_OUT = 'yellowroom signed out'

/** Asks once. Only an aborted question throws. */
export async function ask<Answer>(
  question: Question<Answer>,
  signal?: AbortSignal,
): Promise<Reply<Answer>> {
  const { path, method = 'GET' } = question
  const body = 'body' in question ? question.body : undefined
  try {
    const response = await fetch(path, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...(signal === undefined ? {} : { signal }),
    })
    if (response.status === 503) return (await notReady(signal)) ?? { kind: 'opening' }
    const answer: unknown = response.status === 204 ? null : await response.json()
    if (response.ok) return { kind: 'answer', answer: answer as Answer }
    return refused(answer)
  } catch (cause) {
    if (signal?.aborted === true) throw cause
    return { kind: 'no connection' }
  }
}

/** Asks whether the records are open: null when they are, else why not. Only an abort throws. */
export async function notReady(signal?: AbortSignal): Promise<Reply<never> | null> {
  try {
    const response = await fetch(PATHS.health, signal === undefined ? {} : { signal })
    const { status, message } = (await response.json()) as Partial<Health>
    if (status === 'opening') return { kind: 'opening' }
    if (status === 'failed') return { kind: 'refused', message: message ?? UNSAID, field: null }
    return null
  } catch (cause) {
    if (signal?.aborted === true) throw cause
    return { kind: 'no connection' }
  }
}

const UNSAID = 'The shop’s computer did not answer the question and gave no reason. Try again.'

function refused(answer: unknown): Reply<never> {
  const { error } = (answer ?? {}) as Partial<Refusal>
  if (error?.kind === 'not signed in') dispatchEvent(new Event(SIGNED_OUT))
  return { kind: 'refused', message: error?.message ?? UNSAID, field: error?.field ?? null }
}

/** A path with words behind it, as `?unit=A&medium=B`; it answers as the path does. */
export function asking<Answers>(
  path: Path<Answers>,
  words: string | URLSearchParams | Readonly<Record<string, string>>,
): Path<Answers> {
  const said = new URLSearchParams(words).toString()
  return (said === '' ? path : `${path}?${said}`) as Path<Answers>
}
