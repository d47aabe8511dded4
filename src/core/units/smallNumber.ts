const WORDS = [
  'nought',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]

/** A count as it stands in a sentence: in words up to twelve, in figures from there on. */
export function smallNumber(count: number): string {
  return WORDS[count] ?? String(count)
}
