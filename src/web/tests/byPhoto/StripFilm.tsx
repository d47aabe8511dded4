import type { ReactNode } from 'react'
import type { PhotoStrip } from '../../../api/photos.ts'
import type { FilmPaper } from '../../../workflow/papers/testFilmLayout.ts'
import { Blank } from '../../signs/Blank.tsx'
import { FILM_PAPERS } from '../papers.ts'
import { BY_PHOTO_WORDS } from './byPhotoWords.ts'

/** Columns of the place for drawing: one for each medium that stands under it. */
const COLUMNS = [
  { column: 1, of: 3 },
  { column: 2, of: 3 },
  { column: 3, of: 3 },
  { column: 1, of: 2 },
  { column: 2, of: 2 },
  { column: 1, of: 1 },
] as const

const MARKS = [
  { id: 'printed', name: BY_PHOTO_WORDS.printed },
  ...COLUMNS.map(({ column, of }, at) => ({
    id: String(at),
    name: BY_PHOTO_WORDS.drawn(column, of),
  })),
]

/** The strip's paper, and which of its marks are judged, as a sentence of blanks. */
export function StripFilm({
  paper,
  marks,
  onPaper,
  onMarks,
}: Pick<PhotoStrip, 'paper' | 'marks'> &
  Readonly<{
    onPaper: (paper: FilmPaper) => void
    onMarks: (marks: PhotoStrip['marks']) => void
  }>): ReactNode {
  const at = COLUMNS.findIndex(
    ({ column, of }) => marks !== 'printed' && column === marks.column && of === marks.of,
  )
  return (
    <p className="sentence">
      {BY_PHOTO_WORDS.paper}{' '}
      <Blank
        label={BY_PHOTO_WORDS.paperLabel}
        value={paper}
        choices={FILM_PAPERS}
        onChoice={(id) => onPaper(id === 'letter' ? 'letter' : 'a4')}
      />
      , {BY_PHOTO_WORDS.judged}{' '}
      <Blank
        label={BY_PHOTO_WORDS.judgedLabel}
        value={at < 0 ? 'printed' : String(at)}
        choices={MARKS}
        onChoice={(id) => onMarks(COLUMNS[Number(id)] ?? 'printed')}
      />
      .
    </p>
  )
}
