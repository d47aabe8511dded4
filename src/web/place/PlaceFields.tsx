import { type ReactNode, useState } from 'react'
import type { LaidFilm } from '../../api/place.ts'
import { useUnits } from '../shop.tsx'
import { Entry } from '../tests/Entry.tsx'
import { lengthEntry, lengthWritten, valueOf } from '../tests/written.ts'
import type { PlaceEvent } from './placeState.ts'
import { PLACE_WORDS } from './placeWords.ts'

const FAR = { low: 0, high: 20_000 }

/** Where a sheet lies, as one measures it with a ruler: the drawing’s equal in figures. */
export function PlaceFields({
  name,
  laid,
  isNow,
  tell,
}: Readonly<{
  name: string
  laid: LaidFilm | undefined
  isNow: boolean
  tell: (event: PlaceEvent) => void
}>): ReactNode {
  const units = useUnits()
  const [written, setWritten] = useState<Partial<Record<'x' | 'y', string>>>({})
  const [before, setBefore] = useState(laid)
  if (laid === undefined) return null
  const lengthOf = (text: string): number | null => valueOf(lengthWritten(text, FAR, units))
  // moved otherwise since: what was written before no longer holds
  if (before !== laid) {
    setBefore(laid)
    setWritten({})
  }
  const shown = {
    x: written.x ?? lengthEntry(laid.xMm, units),
    y: written.y ?? lengthEntry(laid.yMm, units),
  }
  const write = (side: 'x' | 'y', text: string): void => {
    const mm = lengthOf(text)
    if (mm === null) setWritten({ ...written, [side]: text })
    else tell({ kind: 'put', xMm: side === 'x' ? mm : laid.xMm, yMm: side === 'y' ? mm : laid.yMm })
  }
  const entry = (side: 'x' | 'y', label: string): ReactNode => (
    <Entry
      label={label}
      value={shown[side]}
      figures="decimal"
      unit={units === 'metric' ? 'mm' : 'in'}
      wrong={written[side] === undefined ? null : PLACE_WORDS.fieldWrong}
      onEntry={(text) => write(side, text)}
    />
  )
  return (
    <fieldset className="place-fields">
      <legend>{PLACE_WORDS.fields(name, isNow)}</legend>
      <div className="entries">
        {entry('x', PLACE_WORDS.fromLeft)}
        {entry('y', PLACE_WORDS.fromBack)}
      </div>
      <p className="small">{PLACE_WORDS.handling}</p>
    </fieldset>
  )
}
