import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { NewIncident, Things } from '../../api/things.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { SHOP_ROOM_WORDS } from './shopRoomWords.ts'
import { LongEntry } from './ThingEntry.tsx'

type Hurt = NewIncident['hurt']
const HURT: readonly Hurt[] = ['nobody', 'nearly', 'somebody']

/** The incident log: what happened stays as it was told. */
export function Incidents({
  incidents,
  onNoted,
}: Readonly<{ incidents: Things['incidents']; onNoted: () => void }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return (
    <section className="room-group">
      <h2>{SHOP_ROOM_WORDS.incidents}</h2>
      {incidents.length === 0 && <p className="soft">{SHOP_ROOM_WORDS.noIncidents}</p>}
      <ul className="room-list">
        {incidents.map(({ id, on, place, what, done, hurt }) => (
          <li key={id} className="room-incident">
            <strong>{SHOP_ROOM_WORDS.incidentLine(on, place)}</strong>
            {what} {done} <span className="soft">{SHOP_ROOM_WORDS.hurt[hurt]}</span>
          </li>
        ))}
      </ul>
      <div className="unfolding">
        <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
          {SHOP_ROOM_WORDS.incident}
        </SecondAct>
        {isOpen && (
          <NewEntry
            onNoted={() => {
              setOpen(false)
              onNoted()
            }}
            onLeave={() => setOpen(false)}
          />
        )}
      </div>
    </section>
  )
}

function NewEntry({
  onNoted,
  onLeave,
}: Readonly<{ onNoted: () => void; onLeave: () => void }>): ReactNode {
  const words = SHOP_ROOM_WORDS
  const [place, setPlace] = useState('')
  const [what, setWhat] = useState('')
  const [done, setDone] = useState('')
  const [hurt, setHurt] = useState<Hurt>('nobody')
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<Things>()
  const lacks = { place: place.trim() === '', what: what.trim() === '' }
  const note = async (): Promise<void> => {
    setAsked(true)
    if (lacks.place || lacks.what || sending.isBusy) return
    const body: NewIncident = {
      place: place.trim(),
      what: what.trim(),
      done: done.trim() === '' ? null : done.trim(),
      hurt,
    }
    if ((await sending.send({ path: PATHS.incidents, method: 'POST', body })) !== null) onNoted()
  }
  return (
    <div className="unfolded">
      <p className="how">{words.incidentLead}</p>
      <Entry
        label={words.place}
        value={place}
        longest={120}
        isWrong={isAsked && lacks.place}
        onEntry={setPlace}
      />
      <LongEntry
        label={words.what}
        value={what}
        isWrong={isAsked && lacks.what}
        onEntry={setWhat}
      />
      <LongEntry label={words.done} value={done} isWrong={false} onEntry={setDone} />
      <p className="sentence">
        <Blank
          label={words.who}
          value={hurt}
          choices={HURT.map((id) => ({ id, name: words.hurt[id] }))}
          onChoice={(id) => setHurt(HURT.find((each) => each === id) ?? 'nobody')}
        />
      </p>
      {(sending.message !== null || (isAsked && (lacks.place || lacks.what))) && (
        <p role="alert" className="entry-wrong">
          {sending.message ?? words.incidentWrong}
        </p>
      )}
      <div className="entry-acts">
        <Button busy={sending.isBusy} onPress={() => void note()}>
          {words.take}
        </Button>
        <SecondAct onPress={onLeave}>{words.leave}</SecondAct>
      </div>
    </div>
  )
}
