import { type KeyboardEvent, type PointerEvent, type ReactNode, useMemo } from 'react'
import type { Cloth as ClothRecord } from '../../api/light.ts'
import { type Rows, type Weave, weave } from '../../workflow/cloth/weave.ts'
import { doseText } from '../figures.ts'
import { CLOTH_WORDS } from '../words.ts'
import './cloth.css'
import { at, type ClothRing, Numbers, Plate, plateHalfPx, Rings, Threads } from './clothParts.tsx'
import { doseAfterKey, settled } from './doseKeys.ts'
import { useWidth } from './useWidth.ts'

export type ClothProps = Readonly<{
  cloth: ClothRecord
  /** Where the bar stands; 0: no bar. */
  doseLu: number
  /** The dose can be moved, by hand and by keys. Without it the cloth is a picture. */
  onDose?: (doseLu: number) => void
  /** What is counted, in full: light units, seconds. */
  unitWord: string
  /** The same in short, for the plate under a bar that can be moved: lu, s. */
  unitShort?: string
  /** Height of the woven part in pixels. */
  height?: number
  /** What the threads across say at the left end: too little light. */
  acrossLabel?: string
  /** What the threads along say at the right end: too much light. */
  alongLabel?: string
  /** A word in the middle, such as how the threads lie. */
  middleLabel?: string
  rows?: Rows
  /** Doses that should stand under the cloth, such as the ends of the range. */
  numbers?: readonly number[]
  rings?: readonly ClothRing[]
  /** Only threads, ground and bar: in a legend. */
  bare?: boolean
  /** What a screen reader says of the dose; value and unit without it. */
  valueText?: string
}>

const ABOVE_PX = 10
const BELOW_PX = 30
const BELOW_MOVED_PX = 46

/** Latitude on a logarithmic dose scale: where it is woven, the dose works. */
export function Cloth(props: ClothProps): ReactNode {
  const {
    cloth,
    doseLu,
    onDose,
    unitWord,
    height = 63,
    rows = 'palest lowest',
    bare = false,
  } = props
  const [box, widthPx] = useWidth<HTMLDivElement>(350)
  const woven = useMemo(
    () => weave(cloth, { widthPx, heightPx: height, rows }),
    [cloth, widthPx, height, rows],
  )
  const value = doseText(doseLu)
  const plate = `${value} ${props.unitShort ?? ''}`.trim()
  const { lowLu, highLu } = cloth
  const below = bare ? ABOVE_PX : onDose === undefined ? BELOW_PX : BELOW_MOVED_PX
  const whole = ABOVE_PX + height + below
  const picture = (
    <svg
      className="cloth-picture"
      viewBox={`0 ${-ABOVE_PX} ${widthPx} ${whole}`}
      height={whole}
      aria-hidden="true"
    >
      <Threads woven={woven} heightPx={height} />
      <Rings rings={props.rings ?? []} woven={woven} heightPx={height} />
      {!bare && (
        <Numbers
          woven={woven}
          heightPx={height}
          doseLu={doseLu}
          first={props.numbers ?? []}
          bar={onDose === undefined ? value : null}
          hiddenPx={onDose === undefined ? 0 : plateHalfPx(plate) + 14}
        />
      )}
      {doseLu > 0 && (
        <g transform={`translate(${at(woven, doseLu)} 0)`}>
          <rect className="cloth-halo" x={-4} y={-ABOVE_PX} width={8} height={height + 16} />
          <rect className="cloth-bar" x={-2} y={-ABOVE_PX} width={4} height={height + 16} />
        </g>
      )}
      {onDose !== undefined && (
        <Plate xPx={at(woven, doseLu)} yPx={height} widthPx={widthPx} text={plate} />
      )}
    </svg>
  )
  if (bare) {
    return (
      <div className="cloth" ref={box}>
        {picture}
      </div>
    )
  }
  return (
    <div className="cloth">
      <div className="cloth-words" aria-hidden="true">
        <span>{props.acrossLabel ?? CLOTH_WORDS.tooLittle}</span>
        {props.middleLabel !== undefined && <span>{props.middleLabel}</span>}
        <span>{props.alongLabel ?? CLOTH_WORDS.tooMuch}</span>
      </div>
      {onDose === undefined ? (
        <div
          ref={box}
          role="img"
          aria-label={CLOTH_WORDS.picture({
            value,
            low: doseText(lowLu),
            high: doseText(highLu),
            unit: unitWord,
          })}
        >
          {picture}
        </div>
      ) : (
        <div
          ref={box}
          className="cloth-slider"
          role="slider"
          tabIndex={0}
          aria-label={CLOTH_WORDS.dose}
          aria-valuemin={lowLu}
          aria-valuemax={highLu}
          aria-valuenow={doseLu}
          aria-valuetext={props.valueText ?? CLOTH_WORDS.doseIs(value, unitWord)}
          onKeyDown={(event) => moveByKey(event, { doseLu, lowLu, highLu, onDose })}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId)
            event.currentTarget.focus()
            moveTo(event, { woven, onDose })
          }}
          onPointerMove={(event) => {
            if (event.currentTarget.hasPointerCapture(event.pointerId))
              moveTo(event, { woven, onDose })
          }}
        >
          {picture}
        </div>
      )}
    </div>
  )
}

function moveByKey(
  event: KeyboardEvent,
  {
    onDose,
    ...now
  }: Readonly<{ doseLu: number; lowLu: number; highLu: number; onDose: (doseLu: number) => void }>,
): void {
  const next = doseAfterKey(event.key, now)
  if (next === null) return
  event.preventDefault()
  onDose(next)
}

function moveTo(
  event: PointerEvent<HTMLElement>,
  { woven, onDose }: Readonly<{ woven: Weave; onDose: (doseLu: number) => void }>,
): void {
  const { left } = event.currentTarget.getBoundingClientRect()
  onDose(settled(woven.scale.doseLu(event.clientX - left), woven.scale))
}
