import type { ReactNode } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import './filmInks.css'
import { FILMS_WORDS } from './filmsWords.ts'
import { withInk } from './planFile.ts'
import { withHighlights } from './planInks.ts'
import type { InksFound } from './previewAsk.ts'
import { WhichInks } from './WhichInks.tsx'

/** Inks to add, and which they might be. */
export function MoreInks({
  artwork,
  file,
  plan,
  onPlan,
  ...rest
}: Readonly<{
  artwork: Artwork
  file: PlanFile
  plan: FilmPlan
  onPlan: (file: PlanFile) => void
  most: number | null
  found: InksFound | null
  onMost: (most: number | null) => void
}>): ReactNode {
  const { mode, paper, inks } = plan
  const isChosen = mode === 'spot' || mode === 'line'
  const hasHighlights = inks.some(({ highlightsFrom }) => highlightsFrom !== undefined)
  return (
    <div className="more-inks">
      {isChosen && (
        <Blank
          label={FILMS_WORDS.addInk}
          value=""
          open={FILMS_WORDS.addInk}
          choices={artwork.inks}
          onChoice={(id) => {
            const ink = artwork.inks.find((known) => known.id === id)
            if (ink !== undefined) onPlan(withInk(file, ink))
          }}
        />
      )}
      {mode === 'spot' && paper !== undefined && !hasHighlights && (
        <SecondAct onPress={() => onPlan(withHighlights(file))}>
          {FILMS_WORDS.addHighlights}
        </SecondAct>
      )}
      {mode !== 'process' && artwork.picture?.passing.length === 0 && (
        <WhichInks {...rest} file={file} inks={artwork.inks} onPlan={onPlan} />
      )}
    </div>
  )
}
