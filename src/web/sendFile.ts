import type { Refusal } from '../api/shop.ts'

/** How a file's way to the shop's computer ended. */
export type Sent<Answer> =
  | Readonly<{ kind: 'taken'; answer: Answer }>
  | Readonly<{ kind: 'refused'; message: string; field: string | null }>
  | Readonly<{ kind: 'cut' }>
  | Readonly<{ kind: 'stopped' }>

/**
 * Sends a file. By XMLHttpRequest, for a fetch does not say how much has gone.
 *
 * @param onShare 0 … 1 of its bytes
 */
export function sendFile<Answer>(
  file: File,
  { path, question }: Readonly<{ path: string; question: object }>,
  { onShare, signal }: Readonly<{ onShare: (share: number) => void; signal: AbortSignal }>,
): Promise<Sent<Answer>> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest()
    request.open('POST', `${path}${queryOf(question)}`)
    request.setRequestHeader('content-type', 'application/octet-stream')
    request.setRequestHeader('x-file-name', encodeURIComponent(file.name))
    request.upload.addEventListener('progress', ({ loaded, total }) =>
      onShare(total > 0 ? loaded / total : 0),
    )
    request.addEventListener('load', () => resolve(answered(request)))
    request.addEventListener('error', () => resolve({ kind: 'cut' }))
    request.addEventListener('abort', () => resolve({ kind: 'stopped' }))
    let isSent = false
    request.upload.addEventListener('load', () => {
      isSent = true
    })
    signal.addEventListener('abort', () => {
      // once all of it is there, the answer tells what it became, so that it can be taken back
      if (!isSent) request.abort()
    })
    request.send(file)
  })
}

function queryOf(question: object): string {
  const asked = new URLSearchParams()
  for (const [name, value] of Object.entries(question)) asked.set(name, String(value))
  return asked.size === 0 ? '' : `?${asked.toString()}`
}

const UNSAID = 'The shop’s computer did not take the file and gave no reason. Send it again.'

function answered<Answer>({ status, responseText }: XMLHttpRequest): Sent<Answer> {
  const answer = parsed(responseText)
  if (status >= 200 && status < 300 && answer !== null)
    return { kind: 'taken', answer: answer as Answer }
  const { error } = (answer ?? {}) as Partial<Refusal>
  return { kind: 'refused', message: error?.message ?? UNSAID, field: error?.field ?? null }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return null // what is no JSON has no sentence to show
  }
}
