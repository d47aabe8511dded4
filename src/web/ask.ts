import type { Refusal } from '../api/shop.ts'

/** What came back from the shop's computer. */
export type Reply<Answer> =
  | Readonly<{ kind: 'answer'; answer: Answer }>
  /** One sentence: what, where, what to do. */
  | Readonly<{ kind: 'refused'; message: string; field: string | null }>
  /** It is there, and still opening its records. */
  | Readonly<{ kind: 'opening' }>
  | Readonly<{ kind: 'no connection' }>

export type Question = Readonly<{
  path: string
  method?: 'GET' | 'POST' | 'PATCH' | 'DELETE'
  body?: unknown
}>

/** Asks once. Only an aborted question throws. */
export async function ask<Answer>(
  { path, method = 'GET', body }: Question,
  signal?: AbortSignal,
): Promise<Reply<Answer>> {
  try {
    const response = await fetch(path, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...(signal === undefined ? {} : { signal }),
    })
    if (response.status === 503) return (await whyNotReady(signal)) ?? { kind: 'opening' }
    const answer: unknown = await response.json()
    if (response.ok) return { kind: 'answer', answer: answer as Answer }
    return refused(answer)
  } catch (cause) {
    if (signal?.aborted === true) throw cause
    return { kind: 'no connection' }
  }
}

/** Not ready for now, or for good: then with the reason. */
async function whyNotReady(signal?: AbortSignal): Promise<Reply<never> | null> {
  const response = await fetch('/api/health', signal === undefined ? {} : { signal })
  const health = (await response.json()) as { status?: string; message?: string | null }
  if (health.status !== 'failed') return null
  return { kind: 'refused', message: health.message ?? UNSAID, field: null }
}

const UNSAID = 'The shop’s computer did not answer the question and gave no reason. Try again.'

function refused(answer: unknown): Reply<never> {
  const { error } = (answer ?? {}) as Partial<Refusal>
  return { kind: 'refused', message: error?.message ?? UNSAID, field: error?.field ?? null }
}
