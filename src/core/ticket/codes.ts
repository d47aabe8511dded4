const OTHER_LETTER = 'T'
const MOST = 9999

/**
 * The next free code of a ticket: the first letter of its name and the number after the highest
 * that any ticket of that letter had, like H7.
 *
 * @param codes that were ever given
 * @throws RangeError when all 9999 of a letter were given
 */
export function nextCode(name: string, codes: readonly string[]): string {
  const letter = firstLetter(name) ?? OTHER_LETTER
  const highest = codes
    .filter((code) => code.startsWith(letter))
    .reduce((most, code) => Math.max(most, Number(code.slice(1))), 0)
  if (highest >= MOST) throw new RangeError(`ticket: all codes of ${letter} are given`)
  return `${letter}${highest + 1}`
}

/**
 * The short name of a layer, for its papers: the ticket's code and the ink's initial, with as many
 * letters more as set it apart from the ticket's other layers, or a number.
 *
 * @param taken short names of the ticket's other layers
 */
export function layerShortName(
  code: string,
  { ink, taken }: Readonly<{ ink: string; taken: readonly string[] }>,
): string {
  const letters = plainLetters(ink) || OTHER_LETTER
  for (let count = 1; count <= letters.length; count++) {
    const name = `${code}-${letters.slice(0, count)}`
    if (!taken.includes(name)) return name
  }
  for (let number = 2; ; number++) {
    const name = `${code}-${letters.slice(0, 1)}${number}`
    if (!taken.includes(name)) return name
  }
}

/**
 * What a layer's papers and its bench are headed with: `N1-B, black: brush and wash`. A subject that
 * names the ink need not be told it twice: `N1-B: Night boat, black`.
 *
 * @param subject the film or the medium; empty: the layer alone
 */
export function layerSaid(
  { shortName, ink }: Readonly<{ shortName: string; ink: string | null }>,
  subject: string,
): string {
  const isNamed = ink === null || subject.toLowerCase().includes(ink.toLowerCase())
  const layer = isNamed ? shortName : `${shortName}, ${ink}`
  return subject === '' ? layer : `${layer}: ${subject}`
}

function firstLetter(name: string): string | undefined {
  return plainLetters(name)[0]
}

/** Capitals without their marks: é as E. */
function plainLetters(text: string): string {
  return text
    .normalize('NFD')
    .toUpperCase()
    .replace(/[^A-Z]/g, '')
}
