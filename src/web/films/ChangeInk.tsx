import type { ReactNode } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Figure, Words } from './Figure.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { HowItPrints, type ShopPrints } from './HowItPrints.tsx'
import { inksOf, type PlanInk, withInkChanged, withInkEarlier, withInks } from './planFile.ts'
import {
  hexOf,
  labOfHex,
  type OwnEdge,
  ownEdgeOf,
  withColour,
  withMerged,
  withOwnEdge,
  withoutTakes,
} from './planInks.ts'
import { PRINTS_WORDS } from './printsWords.ts'

const { own: says } = FILMS_WORDS

export type ChangeInkProps = Readonly<{
  plan: FilmPlan
  file: PlanFile
  inks: Artwork['inks']
  /** Its place in the plan, from 0. */
  at: number
  angleDeg: number | null
  onPlan: (file: PlanFile) => void
}> &
  ShopPrints

/** All that is to be settled about one ink, as sentences. */
export function ChangeInk(props: ChangeInkProps): ReactNode {
  const { plan, file, at, angleDeg, onPlan } = props
  const own = inksOf(file)[at]
  if (own === undefined) return null
  const { mode, halftone } = plan
  const hasTones = halftone !== null && mode !== 'line'
  return (
    <div className="unfolded change-ink">
      <WhatItIs {...props} own={own} />
      {own.highlightsFrom !== undefined && (
        <p>
          {says.highlights}
          <Figure
            label={says.highlightsLabel}
            value={100 * own.highlightsFrom}
            wrong={null}
            onFigure={(percent) =>
              onPlan(withInkChanged(file, at, { highlightsFrom: percent / 100 }))
            }
          />
          {says.highlightsEnd}
        </p>
      )}
      {angleDeg !== null && mode !== 'line' && (
        <p>
          {FILMS_WORDS.angleIs}
          <Figure
            label={FILMS_WORDS.angle}
            value={angleDeg}
            wrong={null}
            onFigure={(angle) => onPlan(withInkChanged(file, at, { angleDeg: angle }))}
          />
          {FILMS_WORDS.degrees}.
        </p>
      )}
      <OwnEdges {...props} own={own} />
      {hasTones && <HowItPrints {...props} own={own} />}
      <Acts {...props} own={own} />
    </div>
  )
}

type Of = ChangeInkProps & Readonly<{ own: PlanInk }>

function WhatItIs({ file, inks, at, own, onPlan }: Of): ReactNode {
  const known = inks.find(({ name }) => name === own.name)
  const others = inksOf(file).flatMap(({ name }, place) =>
    place === at ? [] : [{ id: String(place), name }],
  )
  return (
    <>
      <p>
        {FILMS_WORDS.inkIs}{' '}
        <Blank
          label={FILMS_WORDS.inkIs}
          value={known?.id ?? ''}
          choices={inks}
          open={own.name}
          onChoice={(id) => {
            const ink = inks.find((each) => each.id === id)
            if (ink === undefined) return
            const { name, lab, opacity } = ink
            onPlan(withColour(file, at, { name, lab, opacity }))
          }}
        />
        {says.called}
        <BlankEntry
          label={says.name}
          value={own.name}
          open="…"
          longest={60}
          onEntry={(name) => {
            if (name.trim() !== '') onPlan(withInkChanged(file, at, { name }))
          }}
        />
        {says.coloured}
        <input
          type="color"
          className="ink-colour"
          aria-label={says.colour(own.name)}
          value={hexOf(own.lab)}
          onChange={({ target }) => onPlan(withColour(file, at, { lab: labOfHex(target.value) }))}
        />
        {says.hides}
        <Figure
          label={says.hidesLabel}
          value={100 * own.opacity}
          wrong={null}
          onFigure={(percent) =>
            onPlan(withInkChanged(file, at, { opacity: Math.min(1, Math.max(0, percent / 100)) }))
          }
        />
        {says.hidesEnd}
      </p>
      {own.takes !== undefined && file['mode'] === 'spot' && (
        <p>
          {PRINTS_WORDS.takes.is}{' '}
          <SecondAct onPress={() => onPlan(withoutTakes(file, at))}>
            {PRINTS_WORDS.takes.own}
          </SecondAct>
        </p>
      )}
      {(file['mode'] === 'line' || file['mode'] === 'spot') && others.length > 0 && (
        <p>
          {says.merge}
          <Blank
            label={says.mergeLabel(own.name)}
            value=""
            open={says.mergeOpen}
            choices={others}
            onChoice={(into) => {
              if (into !== '') onPlan(withMerged(file, at, Number(into)))
            }}
          />
          .
        </p>
      )}
    </>
  )
}

function OwnEdges({ file, at, own, onPlan }: Of): ReactNode {
  const { way, um } = ownEdgeOf(own)
  return (
    <p>
      {says.edges}
      <Words
        label={says.edgesLabel(own.name)}
        value={way}
        words={says.edgeWays}
        onChoice={(next) => onPlan(withOwnEdge(file, at, next as OwnEdge))}
      />
      {(way === 'choke' || way === 'spread') && (
        <>
          {FILMS_WORDS.sentence.by}
          <Figure
            label={FILMS_WORDS.labels.edgeBy}
            value={um / 1000}
            wrong={null}
            onFigure={(mm) => onPlan(withOwnEdge(file, at, way, 1000 * mm))}
          />
          {' mm'}
        </>
      )}
      .
    </p>
  )
}

function Acts({ plan, file, at, own, onPlan }: Of): ReactNode {
  return (
    <div className="entry-acts">
      {at > 0 && own.highlightsFrom === undefined && (
        <SecondAct onPress={() => onPlan(withInkEarlier(file, at))}>
          {FILMS_WORDS.earlier}
        </SecondAct>
      )}
      {own.tones !== undefined && (
        <SecondAct
          onPress={() => {
            const all = inksOf(file).map(({ tones, ...ink }, place) =>
              place === at || tones === undefined ? ink : { ...ink, tones },
            )
            onPlan(withInks(file, all))
          }}
        >
          {FILMS_WORDS.allTones}
        </SecondAct>
      )}
      {plan.inks.length > 1 && plan.mode !== 'process' && (
        <SecondAct
          onPress={() =>
            onPlan(
              withInks(
                file,
                inksOf(file).filter((_, place) => place !== at),
              ),
            )
          }
        >
          {FILMS_WORDS.out}
        </SecondAct>
      )}
    </div>
  )
}
