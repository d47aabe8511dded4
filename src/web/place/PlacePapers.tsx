import { type ReactNode, useState } from 'react'
import type { LaidFilm, Place } from '../../api/place.ts'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import { paperOf } from './placeQuery.ts'
import { PLACE_WORDS } from './placeWords.ts'

const PAPERS = ['a4', 'letter'] as const
type Paper = (typeof PAPERS)[number]

/** What is drawn, on paper: in sheets of true size to be taped together, or as a small plan. */
export function PlacePapers({
  place,
  laid,
}: Readonly<{ place: Place; laid: readonly LaidFilm[] }>): ReactNode {
  const units = useUnits()
  const [chosen, setChosen] = useState<Paper | null>(null)
  const paper = chosen ?? (units === 'metric' ? 'a4' : 'letter')
  return (
    <p className="place-papers">
      <a href={paperOf('template', place, { laid, paper })} className="second-act">
        <span>{PLACE_WORDS.trueSize}</span>
      </a>
      <a href={paperOf('plan', place, { laid, paper })} className="second-act">
        <span>{PLACE_WORDS.plan}</span>
      </a>
      <Blank
        label={PLACE_WORDS.paper}
        value={paper}
        choices={PAPERS.map((id) => ({ id, name: PLACE_WORDS.papers[id] }))}
        onChoice={(id) => setChosen(id as Paper)}
      />
    </p>
  )
}
