/** A sum of named things, each so many times. */
type Sum = ReadonlyMap<string, number>

const NOTHING = 1e-9

/** All sums that can be made of some, by elimination. */
export type Span = Readonly<{ has: (sum: Sum) => boolean }>

/** @returns whether a sum is one of these, each taken so many times */
export function spanOf(sums: readonly Sum[]): Span {
  const basis: { lead: string; sum: Sum }[] = []
  const left = (sum: Sum): Sum => {
    let rest = sum
    for (const { lead, sum: own } of basis) {
      const times = rest.get(lead) ?? 0
      if (times === 0) continue
      const next = new Map(rest)
      for (const [name, value] of own) next.set(name, (next.get(name) ?? 0) - times * value)
      next.delete(lead)
      rest = next
    }
    return rest
  }
  const leadOf = (sum: Sum): string | undefined =>
    [...sum].find(([, value]) => Math.abs(value) > NOTHING)?.[0]
  for (const each of sums) {
    const rest = left(each)
    const lead = leadOf(rest)
    if (lead === undefined) continue
    const first = rest.get(lead) ?? 1
    basis.push({ lead, sum: new Map([...rest].map(([name, value]) => [name, value / first])) })
  }
  return { has: (sum) => leadOf(left(sum)) === undefined }
}
