import type { Film, UploadQuestion } from '../../api/films.ts'
import { PATHS } from '../../api/paths.ts'
import { type Sent as SentFile, sendFile } from '../sendFile.ts'

/** How a film's way to the shop's computer ended. */
export type Sent =
  | Readonly<{ kind: 'taken'; film: Film }>
  | Exclude<SentFile<Film>, { kind: 'taken' }>

/** Sends a film's file. @param onShare 0 … 1 of its bytes */
export async function sendFilm(
  file: File,
  question: UploadQuestion,
  how: Readonly<{ onShare: (share: number) => void; signal: AbortSignal }>,
): Promise<Sent> {
  const sent = await sendFile<Film>(file, { path: PATHS.films, question }, how)
  return sent.kind === 'taken' ? { kind: 'taken', film: sent.answer } : sent
}
