import { type ReactNode, useState } from 'react'
import type { BucketAdded } from '../../api/lamp.ts'
import { PATHS } from '../../api/paths.ts'
import { SecondAct } from '../signs/Button.tsx'
import { DayEntry } from './DayEntry.tsx'
import { onTold, today } from './days.ts'
import { Entry } from './Entry.tsx'
import { TESTS_WORDS } from './testsWords.ts'
import { useSending } from './useSending.ts'

/** A new bucket of emulsion, asked for where one notices it. */
export function NewBucket({ onAdded }: Readonly<{ onAdded: () => void }>): ReactNode {
  const words = TESTS_WORDS.bucket
  const [isOpen, setOpen] = useState(false)
  const [name, setName] = useState('')
  const [on, setOn] = useState(today)
  const [wrong, setWrong] = useState<string | null>(null)
  const [said, setSaid] = useState<string | null>(null)
  const sending = useSending<BucketAdded>()
  const take = async (): Promise<void> => {
    if (name.trim() === '') {
      setWrong(words.missing)
      return
    }
    const answer = await sending.send({
      path: PATHS.buckets,
      method: 'POST',
      body: { name: name.trim(), ...onTold(on) },
    })
    if (answer === null) return
    setSaid(words.taken(answer.batch.name))
    setOpen(false)
    setName('')
    onAdded()
  }
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {words.open}
      </SecondAct>
      <p aria-live="polite">{said}</p>
      {isOpen && (
        <div className="unfolded">
          <p>{words.lead}</p>
          <div className="entries">
            <Entry
              label={words.name}
              value={name}
              example={words.example}
              longest={80}
              wrong={wrong ?? (sending.field === 'name' ? sending.message : null)}
              onEntry={(written) => {
                setWrong(null)
                setName(written)
              }}
            />
            <DayEntry label={words.on} value={on} latest={today()} onEntry={setOn} />
          </div>
          <p className="small">{words.caution}</p>
          {sending.message !== null && sending.field !== 'name' && (
            <p role="alert" className="entry-wrong">
              {sending.message}
            </p>
          )}
          <div className="entry-acts">
            <SecondAct onPress={() => void take()}>{words.act}</SecondAct>
            <SecondAct onPress={() => setOpen(false)}>{words.leave}</SecondAct>
          </div>
        </div>
      )}
    </div>
  )
}
