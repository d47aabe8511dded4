/** Later than any day that is settled. */
export const FAR = '2100-12-31'

/** 17 June 2027; an answer's `2027-06-17`. */
export function dayWords(day: string): string {
  const words = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' })
  return words.format(new Date(day))
}
