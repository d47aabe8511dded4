import { type ReactNode, useMemo } from 'react'
import type { LaidFilm, Place } from '../../api/place.ts'
import { sheetOf } from '../../core/placement/boxes.ts'
import { outlineOf, silhouetteOf } from '../../core/placement/outline.ts'
import { useUnits } from '../shop.tsx'
import { rulerText } from '../tests/lengths.ts'
import { LayerPicture } from '../ticket/LayerPicture.tsx'
import type { PlaceEvent } from './placeState.ts'
import { BLACK_INK, filmName, PLACE_WORDS } from './placeWords.ts'
import { useMoving } from './useMoving.ts'

type Film = Place['films'][number]

const PICTURE_PX = 512
/** A film on the drawing, dragged by mouse and finger and stepped by keys; dotted where it lies now. */
export function FilmPiece({
  film,
  laid,
  scale,
  isPicked,
  isBroken,
  isNow,
  onPick,
  tell,
}: Readonly<{
  film: Film
  laid: LaidFilm
  scale: number
  isPicked: boolean
  isBroken: boolean
  isNow: boolean
  onPick: () => void
  tell: (event: PlaceEvent) => void
}>): ReactNode {
  const units = useUnits()
  const moving = useMoving({ laid, scale, isPicked, onPick, tell })
  const sheet = sheetOf(film, laid)
  const px = (mm: number): number => mm * scale
  const [width, height] = [px(sheet.widthMm), px(sheet.heightMm)]
  const marks = useMemo(
    () => marksPath(film, { turned: laid.turned, scale }),
    [film, laid.turned, scale],
  )
  const says = isNow ? PLACE_WORDS.filmNow : PLACE_WORDS.film
  const name = [
    'place-film',
    isNow && 'place-now',
    isPicked && 'place-picked',
    isBroken && 'place-broken',
  ]
  return (
    <g
      className={name.filter((part) => part !== false).join(' ')}
      transform={`translate(${px(sheet.xMm)} ${px(sheet.yMm)})`}
      role="button"
      tabIndex={0}
      aria-pressed={isPicked}
      aria-label={says(filmName(film), rulerText(laid.xMm, units), rulerText(laid.yMm, units))}
      {...moving}
    >
      <rect className="place-sheet" width={width} height={height} />
      {!isNow && (
        <>
          <g transform={laid.turned ? `translate(${width} 0) rotate(90)` : undefined}>
            <foreignObject width={px(film.widthMm)} height={px(film.heightMm)}>
              <div className="place-picture">
                <LayerPicture film={film.id} ink={film.ink ?? BLACK_INK} widthPx={PICTURE_PX} />
              </div>
            </foreignObject>
          </g>
          {marks !== null && <path className="place-marks" d={marks} />}
        </>
      )}
      <rect className="place-outline" width={width} height={height} />
    </g>
  )
}

/** What is seen of the marks’ outline on the sheet; null where nobody knows it. */
function marksPath(
  { name, widthMm, heightMm, marks, outline }: Film,
  { turned, scale }: Readonly<{ turned: boolean; scale: number }>,
): string | null {
  if (marks === null) return null
  const parts = outline?.map((part) => part.map(([xMm, yMm]) => ({ xMm, yMm })))
  const sheet = { name, widthMm, heightMm, turn: 'quarter', marks } as const
  const film = parts === undefined ? sheet : { ...sheet, outline: parts }
  return silhouetteOf(outlineOf(film, { xMm: 0, yMm: 0, turned }))
    .map(
      ({ from, to }) =>
        `M${from.xMm * scale} ${from.yMm * scale}L${to.xMm * scale} ${to.yMm * scale}`,
    )
    .join('')
}
