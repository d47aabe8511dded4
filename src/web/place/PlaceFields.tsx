import { type ReactNode, useState } from 'react'
import type { LaidFilm } from '../../api/place.ts'
import { useUnits } from '../shop.tsx'
import { Entry } from '../tests/Entry.tsx'
import { lengthEntry, lengthWritten, valueOf } from '../tests/written.ts'
import type { PlaceEvent } from './placeState.ts'
import { PLACE_WORDS } from './placeWords.ts'

const FAR = { low: 0, high: 20_000 }
const SAME_MM = 0.01

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
  if (laid === undefined) return null
  const lengthOf = (text: string): number | null => valueOf(lengthWritten(text, FAR, units))
  // what was written stands as long as it says where the film lies, or nothing that can be read
  const shownOf = (side: 'x' | 'y'): string => {
    const [text, lies] = [written[side], side === 'x' ? laid.xMm : laid.yMm]
    const mm = text === undefined ? undefined : lengthOf(text)
    if (text !== undefined && (mm === null || Math.abs((mm ?? 0) - lies) < SAME_MM)) return text
    return lengthEntry(lies, units)
  }
  const isWrong = (side: 'x' | 'y'): boolean => {
    const text = written[side]
    return text !== undefined && shownOf(side) === text && lengthOf(text) === null
  }
  const write = (side: 'x' | 'y', text: string): void => {
    const mm = lengthOf(text)
    setWritten({ ...written, [side]: text })
    if (mm !== null)
      tell({ kind: 'put', xMm: side === 'x' ? mm : laid.xMm, yMm: side === 'y' ? mm : laid.yMm })
  }
  const entry = (side: 'x' | 'y', label: string): ReactNode => (
    <Entry
      label={label}
      value={shownOf(side)}
      figures="decimal"
      unit={units === 'metric' ? 'mm' : 'in'}
      wrong={isWrong(side) ? PLACE_WORDS.fieldWrong : null}
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
