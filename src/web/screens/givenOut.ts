/** A screen that will be coated, and whose it will be. */
export type Chosen = Readonly<{ tag: string; owner: string | null }>

type Owned = Readonly<{ state: string; owner: Readonly<{ id: string }> | null }>

/**
 * Those of a class who have no screen yet: a coated one is theirs, or a stencil that is in work. Where
 * each has one, all of them: then it is their next.
 */
export function withoutScreen<Person extends Readonly<{ id: string }>>(
  people: readonly Person[],
  screens: readonly Owned[],
): readonly Person[] {
  const have = new Set(
    screens.flatMap(({ state, owner }) => (owner !== null && IN_WORK.has(state) ? [owner.id] : [])),
  )
  const without = people.filter(({ id }) => !have.has(id))
  return without.length === 0 ? people : without
}

const IN_WORK: ReadonlySet<string> = new Set(['coated', 'exposed', 'in print'])

/** One screen each, in the order of both lists; screens left over are nobody's. */
export function givenOut(tags: readonly string[], people: readonly string[]): readonly Chosen[] {
  const wanted = people.length === 0 ? tags : tags.slice(0, people.length)
  return wanted.map((tag, at) => ({ tag, owner: people[at] ?? null }))
}

/** Takes a screen out, or in for the first of those who have none. */
export function toggled(
  chosen: readonly Chosen[],
  { tag, free }: Readonly<{ tag: string; free: readonly string[] }>,
): readonly Chosen[] {
  if (chosen.some((each) => each.tag === tag)) return chosen.filter((each) => each.tag !== tag)
  const owner = free.find((id) => chosen.every((each) => each.owner !== id)) ?? null
  return [...chosen, { tag, owner }]
}

export function withOwner(chosen: readonly Chosen[], { tag, owner }: Chosen): readonly Chosen[] {
  return chosen.map((each) => (each.tag === tag ? { tag, owner } : each))
}
