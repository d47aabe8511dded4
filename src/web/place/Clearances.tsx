import { type ReactNode, useState } from 'react'
import type { Place } from '../../api/place.ts'
import { CLEARANCE } from '../../core/placement/problem.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { lengthEntry, lengthWritten, valueOf } from '../tests/written.ts'
import type { PlaceKey } from './placeQuery.ts'
import { PLACE_WORDS } from './placeWords.ts'

const SIDES = ['frameMm', 'betweenMm'] as const

/** How much is kept clear, folded away while it is usual. */
export function Clearances({
  clearance,
  films,
  onChange,
}: Readonly<{
  clearance: Place['clearance']
  films: number
  onChange: (changes: Partial<Record<PlaceKey, string>>) => void
}>): ReactNode {
  const units = useUnits()
  const [isOpen, setOpen] = useState(false)
  const [written, setWritten] = useState<Partial<Record<(typeof SIDES)[number], string>>>({})
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {PLACE_WORDS.clearances}
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <p className="small">{PLACE_WORDS.clearanceWhy}</p>
          <div className="entries">
            {SIDES.filter((side) => side === 'frameMm' || films > 1).map((side) => (
              <Entry
                key={side}
                label={PLACE_WORDS[side]}
                value={written[side] ?? lengthEntry(clearance[side], units)}
                figures="decimal"
                unit={units === 'metric' ? 'mm' : 'in'}
                wrong={
                  written[side] !== undefined &&
                  valueOf(lengthWritten(written[side], CLEARANCE, units)) === null
                    ? PLACE_WORDS.clearanceWrong
                    : null
                }
                onEntry={(text) => {
                  setWritten({ ...written, [side]: text })
                  const mm = valueOf(lengthWritten(text, CLEARANCE, units))
                  if (mm !== null) onChange({ [side]: String(Number(mm.toFixed(2))) })
                }}
              />
            ))}
          </div>
        </div>
      )}
    </div>
  )
}
