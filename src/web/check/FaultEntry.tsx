import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react'
import type { Inspection } from '../../api/photos.ts'
import { lengthText } from '../film/findingSays.ts'
import type { Units } from '../signs/Ruler.tsx'
import { WaxRing } from '../signs/WaxRing.tsx'
import { CHECK_WORDS } from './checkWords.ts'
import { type FaultGroup, type Window, windowOn } from './faultGroups.ts'

export type FaultEntryProps = Readonly<{
  group: FaultGroup
  inspection: Inspection
  units: Units
  /** The number of the finding that is looked at. */
  focused: number | null
  onFocus: (finding: number) => void
}>

/** A finger that goes so far sideways turns to the next place. */
const SWIPE_PX = 40

/** Faults of one kind, a place at a time: film beside screen. By arrows, by swipe, by pressing. */
export function FaultEntry(props: FaultEntryProps): ReactNode {
  const { group, inspection, units, onFocus } = props
  const { kind, findings } = group
  const [at, setAt] = useState(0)
  const from = useRef<number | null>(null)
  const place = findings[Math.min(at, findings.length - 1)]
  if (place === undefined) return null
  const turn = (by: number): void => {
    const next = Math.min(findings.length - 1, Math.max(0, at + by))
    setAt(next)
    onFocus(findings[next]?.number ?? place.number)
  }
  const key = (event: KeyboardEvent): void => {
    const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key]
    if (by === undefined) return
    event.preventDefault()
    turn(by)
  }
  const lift = ({ clientX }: PointerEvent): void => {
    const far = from.current === null ? 0 : clientX - from.current
    from.current = null
    if (Math.abs(far) >= SWIPE_PX) turn(far < 0 ? 1 : -1)
  }
  const view = windowOn(place, inspection)
  const says = CHECK_WORDS.pairSays(CHECK_WORDS.fault(kind, 1), at + 1, findings.length)
  return (
    <li className={place.number === props.focused ? 'fault fault-focused' : 'fault'}>
      <div className="fault-words">
        <WaxRing number={place.number} />
        <h2>{CHECK_WORDS.fault(kind, findings.length)}</h2>
        <p>
          {widths(group, units)} {CHECK_WORDS.faultAct(kind)}
        </p>
        {findings.length > 1 && (
          <p className="fault-walk">
            <button
              type="button"
              aria-label={`${CHECK_WORDS.earlier}: ${CHECK_WORDS.fault(kind, 1)}`}
              aria-disabled={at === 0}
              onClick={() => turn(-1)}
            >
              <span aria-hidden="true">‹</span>
            </button>
            <span aria-live="polite">{CHECK_WORDS.placeOf(at + 1, findings.length)}</span>
            <button
              type="button"
              aria-label={`${CHECK_WORDS.later}: ${CHECK_WORDS.fault(kind, 1)}`}
              aria-disabled={at === findings.length - 1}
              onClick={() => turn(1)}
            >
              <span aria-hidden="true">›</span>
            </button>
          </p>
        )}
      </div>
      <button
        type="button"
        className="fault-pair"
        aria-pressed={place.number === props.focused}
        onFocus={() => onFocus(place.number)}
        onClick={() => onFocus(place.number)}
        onMouseEnter={() => onFocus(place.number)}
        onKeyDown={key}
        onPointerDown={({ clientX }) => {
          from.current = clientX
        }}
        onPointerUp={lift}
        onPointerCancel={() => {
          from.current = null
        }}
      >
        <span className="unseen">{says}</span>
        <Crop picture={inspection.filmPicture} view={view} film={inspection} />
        <Crop picture={inspection.screenPicture} view={view} film={inspection} />
        <span className="soft">{CHECK_WORDS.pairFilm(lengthText(view.sideMm, units))}</span>
        <span className="soft">{CHECK_WORDS.pairScreen}</span>
      </button>
    </li>
  )
}

function widths({ findings }: FaultGroup, units: Units): string {
  const all = findings.map(({ widthUm }) => widthUm / 1000)
  return CHECK_WORDS.from(lengthText(Math.min(...all), units), lengthText(Math.max(...all), units))
}

/** A square of a picture, enlarged. */
function Crop({
  picture,
  view: { xMm, yMm, sideMm },
  film: { widthMm, heightMm },
}: Readonly<{
  picture: string
  view: Window
  film: Pick<Inspection, 'widthMm' | 'heightMm'>
}>): ReactNode {
  return (
    <svg className="fault-crop" viewBox={`${xMm} ${yMm} ${sideMm} ${sideMm}`} aria-hidden="true">
      <image href={picture} width={widthMm} height={heightMm} preserveAspectRatio="none" />
    </svg>
  )
}
