import { type ReactNode, useMemo } from 'react'
import type { Evenness } from '../../../api/lamp.ts'
import { PATHS } from '../../../api/paths.ts'
import type { Choices } from '../../../api/shop.ts'
import { Standing } from '../../frame/Standing.tsx'
import { ROUTES, useWay } from '../../router.tsx'
import { Blank } from '../../signs/Blank.tsx'
import { useAsked } from '../../useAsked.ts'
import { Back } from '../Back.tsx'
import { withWords } from '../setUp.ts'
import { EvennessMap } from './EvennessMap.tsx'
import './evenness.css'
import { EVENNESS_WORDS } from './evennessWords.ts'
import { WedgePlaces } from './WedgePlaces.tsx'

const CHOICES = { path: PATHS.choices }

/** How even the light is on the glass, from wedges lying at several places. */
export function EvennessPage(): ReactNode {
  const { search, go } = useWay()
  const unit = new URLSearchParams(search).get('unit') ?? ''
  const [choices] = useAsked<Choices>(CHOICES)
  const [asked, askAgain] = useAsked<Evenness>(
    useMemo(() => ({ path: withWords(PATHS.evenness, { unit }) }), [unit]),
  )
  const evenness = asked.answer
  const isOld = asked.now === 'working' || asked.now === 'refused'
  return (
    <div className={isOld ? 'even tests-old' : 'even'} aria-busy={isOld}>
      <div className="even-left">
        <Back setUp={{ unit }} />
        <h1>{EVENNESS_WORDS.title}</h1>
        {evenness === null ? (
          <p className="soft">{EVENNESS_WORDS.nothing}</p>
        ) : (
          <p className="tests-sentence">
            {EVENNESS_WORDS.lead}{' '}
            <Blank
              label={EVENNESS_WORDS.unit}
              value={evenness.unit.id}
              choices={choices.answer?.units ?? [{ ...evenness.unit, about: null, not: null }]}
              onChoice={(chosen) => go(withWords(ROUTES.evenness, { unit: chosen }), 'replace')}
            />
            .
          </p>
        )}
        <Standing asked={asked} working={EVENNESS_WORDS.working} onAgain={askAgain} />
        {evenness !== null && (
          <>
            {evenness.sentences.map((sentence) => (
              <p key={sentence} className="even-says">
                {sentence}
              </p>
            ))}
            {evenness.grid === null ? (
              <p className="how">{EVENNESS_WORDS.none}</p>
            ) : (
              <EvennessMap grid={evenness.grid} glass={evenness.glass} />
            )}
          </>
        )}
      </div>
      {evenness !== null && (
        <WedgePlaces key={evenness.unit.id} evenness={evenness} onTaken={askAgain} />
      )}
    </div>
  )
}
