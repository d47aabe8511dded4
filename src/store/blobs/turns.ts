/** One after the other: whoever takes a turn waits until all before have ended theirs. */
export type Turns = Readonly<{
  take: <Result>(work: () => Promise<Result>) => Promise<Result>
  /** Nothing is cleared away while `work` runs; turns go on. */
  whileKept: <Result>(work: () => Promise<Result>) => Promise<Result>
  isKept: () => boolean
}>

export function turns(): Turns {
  let last: Promise<unknown> = Promise.resolve()
  let keepers = 0
  const take = <Result>(work: () => Promise<Result>): Promise<Result> => {
    const mine = last.then(work, work)
    last = mine.catch(() => undefined)
    return mine
  }
  return {
    take,
    whileKept: async (work) => {
      await take(async () => void keepers++)
      try {
        return await work()
      } finally {
        keepers--
      }
    },
    isKept: () => keepers > 0,
  }
}
