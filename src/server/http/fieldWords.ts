/** What the contract calls its fields, in the words of the room; others are their own words. */
const WORDS: Readonly<Record<string, string>> = {
  on: 'the day',
  doseLu: 'the dose',
  clockSec: 'the clock',
  xMm: 'the place from the left',
  yMm: 'the place from the front',
  countsIn: 'what the lamp counts',
  outcome: 'how it came out',
  lastTime: 'last time',
  another: 'another time',
  shopName: 'the shop’s name',
  is: 'how it came out',
  limit: 'how many are asked for',
}
/** Lists whose parts have a number that people see. */
const LISTS: Readonly<Record<string, string>> = {
  bands: 'band',
  pairs: 'pair',
  readings: 'reading',
  places: 'place',
  layers: 'layer',
  inks: 'ink',
  lines: 'line',
  corners: 'corner',
}
/** Nobody sees that these hold others. */
const UNSEEN: ReadonlySet<PropertyKey> = new Set(['is'])
/** Units and the like that a field's name ends in. */
const UNIT = / (mm|um|lu|sec|deg|dpi|per cm)$/

/** Where a field of what was sent is, as people say it: `the grade of band 2`; empty for all of it. */
export function fieldWords(path: readonly PropertyKey[]): string {
  const words: string[] = []
  path.forEach((key, at) => {
    if (UNSEEN.has(key) && at < path.length - 1) return
    const before = path[at - 1]
    if (typeof key === 'number' && before !== undefined) {
      // the list's own word gives way to its part's
      words.shift()
      words.unshift(`${LISTS[String(before)] ?? plain(String(before))} ${key + 1}`)
    } else words.unshift(WORDS[String(key)] ?? `the ${plain(String(key))}`)
  })
  return words.join(' of ')
}

/** What parts of a list are called: `pairs`. */
export function partsWords(path: readonly PropertyKey[]): string {
  return plain(String(path.at(-1) ?? 'parts'))
}

/** Whether a field is called like a list: where it is none, its number is meant. */
export function isListName(path: readonly PropertyKey[]): boolean {
  return String(path.at(-1)) in LISTS
}

/** `firstClearStep` as words; somebody else's text: short, and on its line. */
function plain(key: string): string {
  const apart = key.replace(/(?<=[a-z])[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
  return apart.replace(UNIT, '')
}
