import { type ReactNode, useState } from 'react'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Words } from './Figure.tsx'
import type { FilmsDeskProps } from './FilmsDesk.tsx'
import { leadOf } from './FilmsLead.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { LightTable } from './LightTable.tsx'
import { MoireSaid } from './MoireSaid.tsx'
import type { LoupeView, Preview } from './previewAsk.ts'
import { type Rolls, usualRolls } from './rolls.ts'
import { SizeSaid } from './SizeSaid.tsx'
import { LOUPE_MM, type Place } from './useDesk.ts'
import type { Seen } from './usePreview.ts'

type FilmsLeftProps = Pick<FilmsDeskProps, 'plan' | 'file' | 'size' | 'fabric' | 'onPlan'> &
  Pick<Seen, 'dots' | 'isOld'> &
  Readonly<{
    preview: Preview
    focused: number | null
    place: Place
    view: LoupeView
    onLook: (next: Partial<Place>) => void
    onView: (view: LoupeView) => void
  }>

/** The light table, what the loupe shows on it, and what is said of moiré and of size. */
export function FilmsLeft(props: FilmsLeftProps): ReactNode {
  const { preview, plan, file, size, fabric, place, view, onPlan } = props
  const [rolled, setRolled] = useState<Rolls | null>(null)
  const films = preview.plates.length
  const rolls = rolled !== null && rolled.length === films ? rolled : usualRolls(films)
  const isAllBack = rolls.every((roll) => roll === 0)
  const plate = preview.plates[place.plate] ?? preview.plates[0]
  if (plate === undefined) return null
  return (
    <>
      <LightTable
        preview={preview}
        isOld={props.isOld}
        rolls={rolls}
        onRolls={setRolled}
        says={FILMS_WORDS.table(
          leadOf(preview, { plan, size, hasFabric: fabric !== null }).join(''),
        )}
        focused={props.focused}
        widthMm={size.widthMm}
        onLoupe={props.onLook}
        loupe={{ ...place, name: plate.name, lab: plate.lab, dots: props.dots, fabric }}
      />
      <p className="films-under small">
        <span>{FILMS_WORDS.takeEdge}</span>
        <SecondAct onPress={() => setRolled(isAllBack ? rolls.map(() => 1) : rolls.map(() => 0))}>
          {isAllBack ? FILMS_WORDS.layAll : FILMS_WORDS.rollAll}
        </SecondAct>
        <LoupeShows name={plate.name} view={view} onView={props.onView} />
      </p>
      <div className="films-below">
        <MoireSaid plates={preview.plates} plan={plan} file={file} onPlan={onPlan} />
        <SizeSaid plan={plan} size={size} />
      </div>
    </>
  )
}

function LoupeShows({
  name,
  view,
  onView,
}: Readonly<{ name: string; view: LoupeView; onView: (view: LoupeView) => void }>): ReactNode {
  const units = useUnits()
  return (
    <span>
      {FILMS_WORDS.loupeShows(lengthText(LOUPE_MM, units), name)}
      <Words
        label={FILMS_WORDS.loupeView}
        value={view}
        words={FILMS_WORDS.loupeViews}
        onChoice={(next) => onView(next as LoupeView)}
      />
    </span>
  )
}
