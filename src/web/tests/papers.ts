import type { PaperName } from '../../workflow/papers/paperSizes.ts'
import type { FilmPaper } from '../../workflow/papers/testFilmLayout.ts'

type Choice<Paper> = Readonly<{ id: Paper; name: string }>

/** Papers a test film is printed on. */
export const FILM_PAPERS: readonly Choice<FilmPaper>[] = [
  { id: 'a4', name: 'A4' },
  { id: 'letter', name: 'Letter' },
]

/** Papers a wall chart is printed on. */
export const WALL_PAPERS: readonly Choice<PaperName>[] = [
  { id: 'a4', name: 'A4' },
  { id: 'a3', name: 'A3' },
  { id: 'letter', name: 'Letter' },
  { id: 'tabloid', name: 'Tabloid' },
]

/** Letter where people write in American English, else A4. */
export function usualPaper(): FilmPaper {
  return navigator.language === 'en-US' ? 'letter' : 'a4'
}
