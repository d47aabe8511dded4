import { Failure, type FailureKind } from '../../core/failure.ts'
import type { Answer, Message, Step } from './openDatabase.ts'

/** What the database's thread is told first: the shop's folder. */
export type ThreadBegin = Readonly<{ folder: string }>

/** What it is asked; every question has its number. */
export type Question = Readonly<
  { number: number } & ({ kind: 'execute'; message: Uint8Array } | { kind: 'close' })
>

/**
 * What it says: once that it is open or was refused, then an answer to each question; or that the
 * database had to stop, after which nothing it says can be trusted, nor that it says anything.
 */
export type Said = Readonly<
  | { kind: 'step'; step: Step }
  | { kind: 'open' }
  | { kind: 'refused'; failure: SentFailure }
  | { kind: 'panic'; reason: string }
  | { kind: 'answer'; number: number; answer: Answer | null }
  | { kind: 'broken'; number: number; failure: SentFailure }
>

/** A Failure on its way between threads, where a copied error loses all but its message. */
export type SentFailure = Readonly<{ kind: FailureKind; message: string; why: string }>

export function sentFailure(error: unknown): SentFailure {
  if (error instanceof Failure) {
    const { kind, message, cause } = error
    return { kind, message, why: cause === undefined ? '' : wordsOf(cause) }
  }
  const message = 'The database stopped: start Yellowroom again; what was saved before is safe.'
  return { kind: 'world failed', message, why: wordsOf(error) }
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : JSON.stringify(error)
}

export function receivedFailure({ kind, message, why }: SentFailure): Failure {
  return new Failure(kind, message, why === '' ? {} : { cause: new Error(why) })
}

/** The database's own errors as plain records: copied as errors they would lose code and constraint. */
export function sentMessages(messages: readonly Message[]): readonly Message[] {
  return messages.map((message) =>
    message instanceof Error
      ? { ...message, name: message.name, message: message.message }
      : message,
  )
}
