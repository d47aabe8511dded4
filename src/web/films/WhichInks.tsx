import { type ReactNode, useId } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { SecondAct } from '../signs/Button.tsx'
import { Figure } from './Figure.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { withInk, withInks } from './planFile.ts'
import { withFoundInks } from './planInks.ts'
import type { InksFound } from './previewAsk.ts'

const { which: says } = FILMS_WORDS

/** Inks of the shop that print the artwork nearest, and the flat colours that it has itself. */
export function WhichInks({
  found,
  most,
  onMost,
  file,
  inks,
  onPlan,
}: Readonly<{
  /** Null while they are looked for. */
  found: InksFound | null
  /** How many at most; null: nobody wonders. */
  most: number | null
  onMost: (most: number | null) => void
  file: PlanFile
  inks: Artwork['inks']
  onPlan: (file: PlanFile) => void
}>): ReactNode {
  const id = useId()
  const take = (next: PlanFile): void => {
    onPlan(next)
    onMost(null)
  }
  return (
    <div className="which-inks">
      <SecondAct
        expanded={most !== null}
        controls={id}
        onPress={() => onMost(most === null ? USUAL_MOST : null)}
      >
        {says.ask}
      </SecondAct>
      <div id={id} className="unfolded" hidden={most === null} aria-live="polite">
        {most !== null && (
          <p>
            {says.most}
            <Figure
              label={says.mostLabel}
              value={most}
              wrong={null}
              onFigure={(next) => onMost(Math.min(6, Math.max(1, Math.round(next))))}
            />
            {says.mostEnd}
          </p>
        )}
        {most !== null && found === null && <p>{says.looking}</p>}
        {most !== null && found !== null && (
          <ul>
            {found.choices.map(({ names, meanDifference, worstDifference, isWorth }) => (
              <li key={names.join()}>
                <p>
                  {isWorth ? <strong>{names.join(', ')}</strong> : names.join(', ')}
                  {says.differs(meanDifference.toFixed(1), worstDifference.toFixed(1))}
                  {isWorth && says.worth}
                </p>
                <SecondAct
                  onPress={() => {
                    const chosen = names.flatMap((name) => inks.filter((ink) => ink.name === name))
                    take(chosen.reduce(withInk, withInks(file, [])))
                  }}
                >
                  {says.take(names.length)}
                </SecondAct>
              </li>
            ))}
            <li>
              <p>{says.own}</p>
              <SecondAct onPress={() => take(withFoundInks(file, found.colours))}>
                {says.takeOwn(most)}
              </SecondAct>
            </li>
          </ul>
        )}
      </div>
    </div>
  )
}

const USUAL_MOST = 4
