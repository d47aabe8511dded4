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
  laid: 'the list of films and where they lie',
  from: 'how warm the lamp is',
  say: 'what the labels say',
  what: 'what is meant',
  screenXMm: 'the screen’s place from the left',
  screenYMm: 'the screen’s place from the front',
  sentAt: 'when it was sent',
  frameMm: 'the distance from the frame',
  betweenMm: 'the distance between films',
  graceDays: 'the days of grace',
  editionCount: 'the size of the edition',
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
  films: 'film',
  screens: 'screen',
  marks: 'mark',
  people: 'person',
  events: 'event',
  clocks: 'clock',
  tags: 'tag',
}
/** Nobody sees that these hold others. */
const UNSEEN: ReadonlySet<PropertyKey> = new Set(['is'])
/** Units and the like that a field's name ends in. */
const UNIT = / (mm|um|lu|sec|deg|dpi|per cm)$/

const UNIT_WORDS = [
  [/[a-z]Mm$/, ' mm'],
  [/[a-z]PerCm$/, ' a cm'],
  [/[a-z]Dpi$/, ' dpi'],
  [/[a-z]Sec$/, ' seconds'],
  [/[a-z]Deg$/, ' degrees'],
  [/[a-z]Um$/, ' µm'],
] as const

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

/** The unit of a field with a number, to stand behind it; empty where its name has none. */
export function unitWords(path: readonly PropertyKey[]): string {
  const name = String(path.at(-1) ?? '')
  return UNIT_WORDS.find(([ending]) => ending.test(name))?.[1] ?? ''
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
