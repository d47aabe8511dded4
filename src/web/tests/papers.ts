/** Papers a page can be printed on, as they are asked for and as they are called. */
export const PAPERS = [
  { id: 'a4', name: 'A4' },
  { id: 'a3', name: 'A3' },
  { id: 'letter', name: 'Letter' },
  { id: 'tabloid', name: 'Tabloid' },
] as const

export type Paper = (typeof PAPERS)[number]['id']

/** Letter where people write in American English, else A4. */
export function usualPaper(): Paper {
  return navigator.language === 'en-US' ? 'letter' : 'a4'
}
