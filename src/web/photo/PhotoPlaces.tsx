import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useId,
  useRef,
  useState,
} from 'react'
import type { PhotoPoint } from '../../api/photos.ts'
import { useWidth } from '../signs/useWidth.ts'
import './photoPlaces.css'
import {
  type Corners,
  type Ends,
  keyMove,
  movedWithin,
  type PhotoSize,
  withPoint,
} from './corners.ts'
import { handlePlaces } from './handlePlaces.ts'
import { PhotoGlass } from './PhotoGlass.tsx'
import { PHOTO_WORDS } from './photoWords.ts'

export type PhotoPlacesProps = Readonly<{
  photo: PhotoSize & Readonly<{ preview: string; name: string }>
  corners: Corners
  /** Null: no wedge is shown. */
  ends: Ends | null
  onCorners: (corners: Corners) => void
  onEnds: (ends: Ends) => void
}>

/** A photo with handles for the corners of a sheet and the ends of a wedge, and a glass over them. */
export function PhotoPlaces(props: PhotoPlacesProps): ReactNode {
  const { photo, corners, ends, onCorners, onEnds } = props
  const [held, setHeld] = useState<string | null>(null)
  const how = useId()
  const [stage, stagePx] = useWidth<HTMLDivElement>(0)
  const places = handlePlaces(corners, photo, stagePx)
  const handles = [
    ...corners.map((point, at) => ({
      name: PHOTO_WORDS.corners[at] ?? '',
      kind: 'corner',
      point,
      place: places[at] ?? point,
      onMove: (to: PhotoPoint) => onCorners(withPoint(corners, at, to)),
    })),
    ...(ends ?? []).map((point, at) => ({
      name: PHOTO_WORDS.wedgeEnds[at] ?? '',
      kind: 'end',
      point,
      place: point,
      onMove: (to: PhotoPoint) => ends !== null && onEnds(withPoint(ends, at, to)),
    })),
  ]
  const inHand = handles.find(({ name }) => name === held)
  return (
    <div className="photo-places">
      <div className="photo-stage" ref={stage}>
        <img
          src={photo.preview}
          alt={PHOTO_WORDS.picture(photo.name)}
          width={photo.widthPx}
          height={photo.heightPx}
          draggable={false}
        />
        <Outline {...{ photo, corners, places, ends }} scale={stagePx / photo.widthPx} />
        {handles.map(({ name, kind, point, place, onMove }) => (
          <Handle
            key={name}
            {...{ name, kind, point, place, photo, stage, how }}
            onMove={onMove}
            onHeld={(isHeld) => setHeld((now) => (isHeld ? name : now === name ? null : now))}
          />
        ))}
        {inHand !== undefined && <PhotoGlass photo={photo} corners={corners} at={inHand.point} />}
      </div>
      <p className="small" id={how}>
        {PHOTO_WORDS.cornersHow}
        {ends !== null && ` ${PHOTO_WORDS.wedge.how}`}
      </p>
      <p className="unseen" aria-live="polite">
        {inHand !== undefined && placeSays(inHand.name, inHand.point, photo)}
      </p>
    </div>
  )
}

function placeSays(name: string, { x, y }: PhotoPoint, photo: PhotoSize): string {
  const share = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(1)} %`
  return PHOTO_WORDS.placed(name, share(x, photo.widthPx), share(y, photo.heightPx))
}

/** The sheet's edges over the photo, what lies outside of them dimmed. */
function Outline({
  photo: { widthPx, heightPx },
  corners,
  places,
  scale,
  ends,
}: Pick<PhotoPlacesProps, 'photo' | 'corners' | 'ends'> &
  Readonly<{ places: readonly PhotoPoint[]; scale: number }>): ReactNode {
  const stems = corners
    .map((corner, at) => stemOf(corner, { place: places[at] ?? corner, ringPx: RING_PX / scale }))
    .join('')
  const sheet = corners.map(({ x, y }) => `${x} ${y}`).join('L')
  return (
    <svg
      className="photo-outline"
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <path className="photo-outside" d={`M0 0H${widthPx}V${heightPx}H0ZM${sheet}Z`} />
      <path className="photo-edge-under" d={`M${sheet}Z${stems}`} />
      <path className="photo-edge" d={`M${sheet}Z${stems}`} />
      {ends !== null && (
        <path className="photo-wedge" d={`M${ends[0].x} ${ends[0].y}L${ends[1].x} ${ends[1].y}`} />
      )}
    </svg>
  )
}

/** From a corner to the ring that hangs on it; nothing where the ring stands on it. */
function stemOf(
  { x, y }: PhotoPoint,
  { place, ringPx }: Readonly<{ place: PhotoPoint; ringPx: number }>,
): string {
  const length = Math.hypot(place.x - x, place.y - y)
  if (!(length > ringPx)) return ''
  const part = 1 - ringPx / length
  return `M${x} ${y}L${x + part * (place.x - x)} ${y + part * (place.y - y)}`
}

/** Half of a ring's width, in CSS pixels. */
const RING_PX = 13

function Handle({
  name,
  kind,
  point,
  place,
  photo,
  stage,
  how,
  onMove,
  onHeld,
}: Readonly<{
  name: string
  kind: string
  point: PhotoPoint
  /** Where it stands itself. */
  place: PhotoPoint
  photo: PhotoSize
  stage: Readonly<{ current: HTMLElement | null }>
  /** The id of the words that say how it is moved. */
  how: string
  onMove: (to: PhotoPoint) => void
  onHeld: (isHeld: boolean) => void
}>): ReactNode {
  /** Where pointer and corner were when it was taken hold of: it does not jump under the finger. */
  const taken = useRef<Readonly<{ client: PhotoPoint; point: PhotoPoint }> | null>(null)
  const drag = (event: PointerEvent): void => {
    const box = stage.current?.getBoundingClientRect()
    if (taken.current === null || box === undefined) return
    const { client, point: from } = taken.current
    const by = {
      x: ((event.clientX - client.x) * photo.widthPx) / box.width,
      y: ((event.clientY - client.y) * photo.heightPx) / box.height,
    }
    onMove(movedWithin(from, by, photo))
  }
  const key = (event: KeyboardEvent): void => {
    const by = event.altKey || event.ctrlKey || event.metaKey ? null : keyMove(event, photo)
    if (by === null) return
    event.preventDefault()
    onMove(movedWithin(point, by, photo))
  }
  return (
    <button
      type="button"
      className={`photo-handle photo-handle-${kind}`}
      aria-label={name}
      aria-describedby={how}
      style={{
        left: `${(100 * place.x) / photo.widthPx}%`,
        top: `${(100 * place.y) / photo.heightPx}%`,
      }}
      onPointerDown={(event) => {
        if (event.button !== 0) return
        event.currentTarget.setPointerCapture(event.pointerId)
        taken.current = { client: { x: event.clientX, y: event.clientY }, point }
        onHeld(true)
      }}
      onPointerMove={drag}
      onPointerUp={() => (taken.current = null)}
      onPointerCancel={() => (taken.current = null)}
      onKeyDown={key}
      onFocus={() => onHeld(true)}
      onBlur={() => onHeld(false)}
    >
      <span aria-hidden="true" />
    </button>
  )
}
