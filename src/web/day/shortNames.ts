/**
 * Names as one calls them in a room: the first name alone, and where two share it, as many letters
 * of the last as tell them apart. Who cannot be told apart keeps the whole name.
 *
 * @returns the short name by the whole one
 */
export function shortNames(people: readonly string[]): ReadonlyMap<string, string> {
  const all = [...new Set(people)]
  return new Map(all.map((name) => [name, shortOf(name, all)]))
}

function shortOf(name: string, all: readonly string[]): string {
  const others = all.filter((other) => other !== name)
  const [, last] = partsOf(name)
  for (let letters = 0; letters <= last.length; letters++) {
    const short = withLetters(name, letters)
    if (others.every((other) => withLetters(other, letters) !== short)) return short
  }
  return name
}

/** Tamsin, Tamsin O, Tamsin Or … */
function withLetters(name: string, letters: number): string {
  const [first, last] = partsOf(name)
  return letters === 0 ? first : `${first} ${last.slice(0, letters)}`.trim()
}

function partsOf(name: string): readonly [string, string] {
  const words = name.split(' ')
  return [words[0] ?? name, words.length > 1 ? (words.at(-1) ?? '') : '']
}
