import { once } from 'node:events'
import { parentPort } from 'node:worker_threads'
import { type OpenDatabase, openDatabase } from './openDatabase.ts'
import { type Question, type Said, sentFailure, sentMessages, type ThreadBegin } from './thread.ts'

// The database blocks the thread it works in, so it has one of its own: this file.

const say = (said: Said): void => parentPort?.postMessage(said, [])

/** The folder comes when it is known; until then the code is loaded. */
const begin =
  parentPort === null
    ? Promise.reject(new RangeError('thread: expected somebody to answer to, got nobody'))
    : once(parentPort, 'message').then(([told]) => told as ThreadBegin)

try {
  const { folder } = await begin
  const database = await openDatabase(folder, {
    onStep: (step) => say({ kind: 'step', step }),
    onPanic: (reason) => say({ kind: 'panic', reason }),
  })
  parentPort?.on('message', (question: Question) => {
    void answer(database, question)
  })
  say({ kind: 'open' })
} catch (cause) {
  say({ kind: 'refused', failure: sentFailure(cause) })
}

/** Questions are answered in their order: the database itself lets one in at a time. */
async function answer(database: OpenDatabase, question: Question): Promise<void> {
  const { number } = question
  try {
    switch (question.kind) {
      case 'execute': {
        const { messages, syncs } = await database.execute(question.message)
        say({ kind: 'answer', number, answer: { messages: sentMessages(messages), syncs } })
        break
      }
      case 'close':
        await database.close()
        say({ kind: 'answer', number, answer: null })
        break
    }
  } catch (cause) {
    say({ kind: 'broken', number, failure: sentFailure(cause) })
  }
}
