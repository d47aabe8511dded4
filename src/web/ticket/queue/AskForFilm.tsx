import { type ReactNode, useRef, useState } from 'react'
import type { FilmQueue } from '../../../api/filmQueue.ts'
import { newKey } from '../../newKey.ts'
import { Blank } from '../../signs/Blank.tsx'
import { SecondAct } from '../../signs/Button.tsx'
import { Entry } from '../../tests/Entry.tsx'
import { QUEUE_WORDS } from './queueWords.ts'

/** A film is wanted: for a layer, or told in a few words. */
export function AskForFilm({
  queue: { layers, people },
  onAsk,
}: Readonly<{ queue: FilmQueue; onAsk: (body: object) => Promise<boolean> }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [layer, setLayer] = useState('')
  const [what, setWhat] = useState('')
  const [person, setPerson] = useState('')
  const [isAsked, setAsked] = useState(false)
  const key = useRef(newKey())
  const isWrong = layer === '' && what.trim() === ''
  const ask = async (): Promise<void> => {
    setAsked(true)
    if (isWrong) return
    const which = layer === '' ? { what: what.trim() } : { layer }
    const who = person === '' ? {} : { person }
    if (!(await onAsk({ key: key.current, ...which, ...who }))) return
    key.current = newKey()
    setLayer('')
    setWhat('')
    setAsked(false)
    setOpen(false)
  }
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {QUEUE_WORDS.ask}
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <p>
            {QUEUE_WORDS.wantLayer}
            <Blank
              label={QUEUE_WORDS.wantLayer}
              value={layer}
              choices={layers}
              open={QUEUE_WORDS.aLayer}
              onChoice={setLayer}
            />
            {QUEUE_WORDS.waits}
            <Blank
              label={QUEUE_WORDS.who}
              value={person}
              choices={people}
              open={QUEUE_WORDS.who}
              onChoice={setPerson}
            />
            {QUEUE_WORDS.waitsFor}
          </p>
          {layer === '' && (
            <Entry
              label={QUEUE_WORDS.what}
              value={what}
              example={QUEUE_WORDS.whatExample}
              longest={120}
              wrong={isAsked && isWrong ? QUEUE_WORDS.whatWrong : null}
              onEntry={setWhat}
            />
          )}
          <SecondAct onPress={() => void ask()}>{QUEUE_WORDS.act}</SecondAct>
        </div>
      )}
    </div>
  )
}
