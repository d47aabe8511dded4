import { type ReactNode, useState } from 'react'
import type { Lamp } from '../../../api/lamp.ts'
import { PATHS } from '../../../api/paths.ts'
import { SecondAct } from '../../signs/Button.tsx'
import { DayEntry } from '../DayEntry.tsx'
import { onTold, today } from '../days.ts'
import { Entry } from '../Entry.tsx'
import { useSending } from '../useSending.ts'
import { numberWritten, valueOf } from '../written.ts'
import { LAMP_WORDS } from './lampWords.ts'

/** Another lamp in the same unit: from then on it is believed anew. */
export function NewLamp({
  unit,
  onTaken,
}: Readonly<{ unit: string; onTaken: () => void }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [on, setOn] = useState(today)
  const [hours, setHours] = useState('')
  const [said, setSaid] = useState<string | null>(null)
  const sending = useSending<Lamp>()
  const written = numberWritten(hours, { low: 0, high: 1_000_000 })
  const take = async (): Promise<void> => {
    if (written.kind === 'wrong') return
    const lampHours = valueOf(written)
    const lamp = await sending.send({
      path: PATHS.newLamp,
      method: 'POST',
      body: {
        ...onTold(on),
        ...(unit === '' ? {} : { unit }),
        ...(lampHours === null ? {} : { lampHours }),
      },
    })
    if (lamp === null) return
    setSaid(LAMP_WORDS.newLampTaken)
    setOpen(false)
    onTaken()
  }
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {LAMP_WORDS.newLamp}
      </SecondAct>
      <p aria-live="polite">{said}</p>
      {isOpen && (
        <div className="unfolded">
          <p className="how">{LAMP_WORDS.newLampHow}</p>
          <p className="small">{LAMP_WORDS.newLampCaution}</p>
          <div className="entries">
            <DayEntry label={LAMP_WORDS.newLampOn} value={on} latest={today()} onEntry={setOn} />
            <Entry
              label={LAMP_WORDS.newLampHours}
              value={hours}
              figures="decimal"
              example="0"
              wrong={written.kind === 'wrong' ? LAMP_WORDS.wrongHours(hours.trim()) : null}
              onEntry={setHours}
            />
          </div>
          {sending.message !== null && (
            <p role="alert" className="entry-wrong">
              {sending.message}
            </p>
          )}
          <div className="entry-acts">
            <SecondAct onPress={() => void take()}>{LAMP_WORDS.newLampAct}</SecondAct>
            <SecondAct onPress={() => setOpen(false)}>{LAMP_WORDS.leave}</SecondAct>
          </div>
        </div>
      )}
    </div>
  )
}
