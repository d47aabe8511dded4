import { type ReactNode, useState } from 'react'
import { strikePath } from '../../api/paths.ts'
import type { ReadingLine, ReadingTaken } from '../../api/tests.ts'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from './Entry.tsx'
import { READINGS_WORDS } from './readingsWords.ts'
import { useSending } from './useSending.ts'

/** Takes a reading out of what is believed; it stays in the list with the reason. */
export function StrikeOut({
  line,
  onStruck,
}: Readonly<{ line: ReadingLine; onStruck: (moved: readonly string[]) => void }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [reason, setReason] = useState('')
  const [isMissing, setMissing] = useState(false)
  const sending = useSending<ReadingTaken>()
  const strike = async (): Promise<void> => {
    if (reason.trim() === '') {
      setMissing(true)
      return
    }
    const taken = await sending.send({
      path: strikePath(line.id),
      method: 'POST',
      body: { reason: reason.trim() },
    })
    if (taken !== null) onStruck(taken.moved)
  }
  const write = (written: string): void => {
    setReason(written)
    setMissing(false)
  }
  return (
    <div className="strike">
      <button
        type="button"
        className="word-link strike-open"
        aria-expanded={isOpen}
        onClick={() => setOpen(!isOpen)}
      >
        {READINGS_WORDS.strike}
        <span className="unseen">{READINGS_WORDS.strikeOf(line.says)}</span>
      </button>
      {isOpen && (
        <div className="unfolded">
          <Entry
            label={READINGS_WORDS.why}
            value={reason}
            onEntry={write}
            wrong={isMissing ? READINGS_WORDS.missing : sending.message}
          />
          <p className="strike-reasons">
            {READINGS_WORDS.reasons.map((each) => (
              <button key={each} type="button" className="word-link" onClick={() => write(each)}>
                {each}
              </button>
            ))}
          </p>
          <p className="small">{READINGS_WORDS.whyMore}</p>
          <div className="entry-acts">
            <SecondAct onPress={() => void strike()}>{READINGS_WORDS.strike}</SecondAct>
            <SecondAct onPress={() => setOpen(false)}>{READINGS_WORDS.leave}</SecondAct>
          </div>
        </div>
      )}
    </div>
  )
}
