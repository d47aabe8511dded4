import type { Film, UploadQuestion } from '../../api/films.ts'
import { PATHS } from '../../api/paths.ts'
import type { Refusal } from '../../api/shop.ts'

/** How a file's way to the shop's computer ended. */
export type Sent =
  | Readonly<{ kind: 'taken'; film: Film }>
  | Readonly<{ kind: 'refused'; message: string; field: string | null }>
  | Readonly<{ kind: 'cut' }>
  | Readonly<{ kind: 'stopped' }>

/**
 * Sends a film's file. By XMLHttpRequest, for a fetch does not say how much has gone.
 *
 * @param onShare 0 … 1 of its bytes
 */
export function sendFilm(
  file: File,
  question: UploadQuestion,
  { onShare, signal }: Readonly<{ onShare: (share: number) => void; signal: AbortSignal }>,
): Promise<Sent> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest()
    request.open('POST', `${PATHS.films}${queryOf(question)}`)
    request.setRequestHeader('content-type', 'application/octet-stream')
    request.setRequestHeader('x-file-name', encodeURIComponent(file.name))
    request.upload.addEventListener('progress', ({ loaded, total }) =>
      onShare(total > 0 ? loaded / total : 0),
    )
    request.addEventListener('load', () => resolve(answered(request)))
    request.addEventListener('error', () => resolve({ kind: 'cut' }))
    request.addEventListener('abort', () => resolve({ kind: 'stopped' }))
    signal.addEventListener('abort', () => request.abort())
    request.send(file)
  })
}

function queryOf(question: UploadQuestion): string {
  const asked = new URLSearchParams()
  for (const [name, value] of Object.entries(question)) asked.set(name, String(value))
  return asked.size === 0 ? '' : `?${asked.toString()}`
}

const UNSAID = 'The shop’s computer did not take the file and gave no reason. Send it again.'

function answered({ status, responseText }: XMLHttpRequest): Sent {
  const answer = parsed(responseText)
  if (status >= 200 && status < 300 && answer !== null)
    return { kind: 'taken', film: answer as Film }
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
