import { Worker } from 'node:worker_threads'

/** A database's thread. */
export type ReadyThread = Worker

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = new URL('../../../dist/store/embedded/databaseThread.js', import.meta.url)

/**
 * A thread that loads the database's code, seconds of work on a slow computer, and then waits to be
 * told its folder: whoever will open a shop begins it first and loads the rest meanwhile. One that
 * is never told does not keep the process alive.
 */
export function readyThread(): ReadyThread {
  const thread = new Worker(THREAD)
  thread.unref()
  return thread
}
