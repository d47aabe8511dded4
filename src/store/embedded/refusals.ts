import { Failure } from '../../core/failure.ts'
import { diskFull, named } from '../folder/refused.ts'
import type { Message } from './openDatabase.ts'

type ErrorMessage = Message & { message?: string }

const READY = { name: 'readyForQuery', length: 5, status: 'I' } as unknown as Message

/**
 * What the driver is told in the name of a database that has stopped: an error, for without any it
 * would take silence for success, and that the next question may come.
 */
export function refusalOf(why: Failure): readonly Message[] {
  const words = { name: 'error', severity: 'FATAL', code: '57P01', cause: why }
  return [Object.assign(new Error(why.message), words) as unknown as Message, READY]
}

/** The sentence for a disk that failed under the running database. */
export function whyStopped(reason: string, folder: string): Failure {
  if (/No space left|quota exceeded/i.test(reason)) return diskFull(named(folder))
  const message = `The disk failed under the database in ${named(folder)} (${reason}): check the disk, then start Yellowroom again; what was saved before is safe.`
  return new Failure('world failed', message)
}

/** An error that came between threads as a plain record is one again. */
export function revived(message: Message): Message {
  if (message.name !== 'error' || message instanceof Error) return message
  const { message: text = '', ...rest } = message as ErrorMessage
  return Object.assign(new Error(text), rest)
}
