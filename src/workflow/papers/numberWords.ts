const ONES = [
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
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
]
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety']

/** A number as it is counted out: to two decimals, without needless noughts. */
export function counted(value: number): string {
  return String(Number(value.toFixed(2)))
}

/**
 * A number as it is said: `sixty-two`, `six point four`, `three hundred and sixty`. From a thousand
 * up it stays in figures, which are shorter than the words.
 */
export function numberWords(value: number): string {
  const [whole = '', decimals] = counted(value).split('.')
  if (Number(whole) >= 1000) return counted(value)
  const said = wholeWords(Number(whole))
  if (decimals === undefined) return said
  return `${said} point ${[...decimals].map((figure) => ONES[Number(figure)]).join(' ')}`
}

function wholeWords(value: number): string {
  const [hundreds, rest] = [Math.floor(value / 100), value % 100]
  if (hundreds === 0) return belowHundred(rest)
  const first = `${ONES[hundreds]} hundred`
  return rest === 0 ? first : `${first} and ${belowHundred(rest)}`
}

function belowHundred(value: number): string {
  const [ones, tens] = [value % 10, Math.floor(value / 10)]
  if (value < 20) return ONES[value] ?? ''
  return ones === 0 ? (TENS[tens] ?? '') : `${TENS[tens]}-${ONES[ones]}`
}
