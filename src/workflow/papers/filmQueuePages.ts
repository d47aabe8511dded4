import type { FilmPage } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { dayWords } from './dayWords.ts'
import {
  type Block,
  blanks,
  flowPages,
  gap,
  type PaperAbout,
  paragraph,
  rule,
  together,
} from './editionFlow.ts'

/** A film that somebody waits for, as it stands on paper. */
export type QueuedOnPaper = Readonly<{
  what: string
  /** Its layer's short name, where it is for one. */
  shortName: string | null
  person: string | null
  askedOn: string
  madeOn: string | null
  /** "99.8 mm of 100 mm"; null: not measured. */
  along: string | null
  across: string | null
  /** What the measured bars say, and what to do. */
  says: readonly string[]
  liesIn: string | null
}>

export type QueueOnPaper = Readonly<{
  films: readonly QueuedOnPaper[]
  about: Omit<PaperAbout, 'what' | 'about' | 'code' | 'name'>
  /** As 2026-11-09. */
  date: string
}>

/**
 * Who waits for which film, to hang beside the printer: lines for a pencil where nothing is known
 * yet. A4, upright.
 *
 * @throws RangeError where the date cannot be
 */
export function filmQueuePages(
  { films, about, date }: QueueOnPaper,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const blocks: readonly Block[] =
    films.length === 0
      ? [paragraph(letters, 'Nobody waits for a film.', { sizeMm: 4.3 })]
      : films.map((film) => filmBlock(film, letters))
  return flowPages(blocks, {
    about: {
      ...about,
      code: null,
      name: 'Who waits for a film?',
      what: 'Film queue',
      about: `Film queue, ${dayWords(date)}`,
    },
    letters,
  })
}

function filmBlock(film: QueuedOnPaper, letters: Letters): Block {
  const { what, shortName, person, askedOn, madeOn, along, across, says, liesIn } = film
  return together([
    rule(),
    paragraph(letters, shortName === null ? what : `${shortName}  ${what}`, {
      face: 'bold',
      sizeMm: 4.6,
    }),
    paragraph(letters, `For ${person ?? 'nobody in particular'}, asked for on ${askedOn}.`),
    ...says.map((sentence) => paragraph(letters, sentence, { sizeMm: 3.7 })),
    blanks(letters, [
      { label: 'made', known: madeOn },
      { label: 'the bar measures', known: along },
      { label: 'across it, cross to cross', known: across },
      { label: 'lies in', known: liesIn },
      { label: 'fetched', known: null },
    ]),
    gap(2),
  ])
}
