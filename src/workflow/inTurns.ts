/** Somebody who does one thing at a time. */
export type Hand<Task, Result> = (task: Task) => Promise<Result>

/** Results that may wait for their turn, for each hand: memory stays bounded when one is slow. */
const WAITING_PER_HAND = 2

/**
 * Deals tasks to whichever hand is free; the results come in the order of the tasks.
 *
 * @throws what tasks or hands throw; the others' work under way is let go
 */
export async function* inTurns<Task, Result>(
  tasks: AsyncIterable<Task>,
  hands: readonly Hand<Task, Result>[],
): AsyncGenerator<Result> {
  const free = [...hands]
  const busy = new Set<Promise<unknown>>()
  const results: Promise<Result>[] = []
  const begin = (hand: Hand<Task, Result>, task: Task): Promise<Result> => {
    const result = hand(task)
    const settled = result
      .catch(() => undefined) // told of when its turn comes
      .then(() => {
        busy.delete(settled)
        free.push(hand)
      })
    busy.add(settled)
    return result
  }
  for await (const task of tasks) {
    const next = results.length < WAITING_PER_HAND * hands.length ? undefined : results.shift()
    if (next !== undefined) yield await next
    while (free.length === 0) await Promise.race(busy)
    const hand = free.shift()
    if (hand !== undefined) results.push(begin(hand, task))
  }
  for (const result of results) yield await result
}
