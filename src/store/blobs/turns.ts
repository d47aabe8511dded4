/** One after the other: whoever takes a turn waits until all before have ended theirs. */
export type Turns = Readonly<{ take: <Result>(work: () => Promise<Result>) => Promise<Result> }>

export function turns(): Turns {
  let last: Promise<unknown> = Promise.resolve()
  return {
    take: (work) => {
      const mine = last.then(work, work)
      last = mine.catch(() => undefined)
      return mine
    },
  }
}
