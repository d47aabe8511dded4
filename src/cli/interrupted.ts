import { constants } from 'node:os'

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

/**
 * Lets a signal end the process by way of its exit while `work` runs, so that temporary files go;
 * a signal that nobody listens to would leave them.
 */
export async function tidyWhenInterrupted<Result>(work: () => Promise<Result>): Promise<Result> {
  const leave = (signal: (typeof SIGNALS)[number]): never =>
    process.exit(128 + constants.signals[signal]) // what a shell makes of the signal
  for (const signal of SIGNALS) process.once(signal, leave)
  try {
    return await work()
  } finally {
    for (const signal of SIGNALS) process.removeListener(signal, leave)
  }
}
