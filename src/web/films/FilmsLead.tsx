import type { ReactNode } from 'react'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { FilmSize } from '../../workflow/makeFilms/filmSize.ts'
import { FILMS_WORDS } from './filmsWords.ts'
import type { Preview } from './previewAsk.ts'
import { PRINTS_WORDS } from './printsWords.ts'
import { sheetsOf } from './SizeSaid.tsx'

export type Lying = Readonly<{ plan: FilmPlan; size: FilmSize; hasFabric: boolean }>

/** How many films there are, and whether all of it holds. */
export function FilmsLead({
  preview,
  ...lying
}: Lying & Readonly<{ preview: Preview }>): ReactNode {
  const [films, holds] = leadOf(preview, lying)
  return (
    <p className="films-lead" aria-live="polite">
      {films}
      <strong>{holds}</strong>
    </p>
  )
}

export function leadOf(
  { plates, holds, findings }: Preview,
  { plan, size, hasFabric }: Lying,
): readonly [string, string] {
  const films = FILMS_WORDS.lead(plates.length, sheetsOf(plan, size))
  const empty = plates.filter(({ isEmpty }) => isEmpty)
  if (empty.length === plates.length) return [films, FILMS_WORDS.emptyAll]
  if (empty.length > 0) return [films, FILMS_WORDS.empty(empty.map(({ name }) => name))]
  if (plan.mode === 'line' || plan.halftone === null) return [films, FILMS_WORDS.lines]
  if (!hasFabric || holds === null) return [films, FILMS_WORDS.noFabric]
  if (holds.least >= holds.most) return [films, FILMS_WORDS.tooFine]
  const tones = findings.filter(({ kind }) => kind !== 'heavy').length
  const heavy = tones < findings.length ? PRINTS_WORDS.leadHeavy : ''
  return [films, (tones === 0 ? FILMS_WORDS.holdsAll : FILMS_WORDS.holdsBut(tones)) + heavy]
}
