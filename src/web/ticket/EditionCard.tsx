import { type ReactNode, useState } from 'react'
import type { Ticket } from '../../api/tickets.ts'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { GivenOut } from './GivenOut.tsx'
import { TICKET_WORDS } from './ticketWords.ts'
import type { Act } from './useTicket.ts'

type EditionProps = Readonly<{
  ticket: Ticket
  act: (act: Act) => Promise<boolean>
  /** The sentence of a refusal about the card. */
  wrong: string | null
}>

/** The edition's card: written when it is closed, read afterwards. */
export function EditionCard({ ticket, act, wrong }: EditionProps): ReactNode {
  const { edition, closedOn } = ticket
  if (closedOn === null || edition === null) {
    return <CloseEdition ticket={ticket} act={act} wrong={wrong} />
  }
  const { archivePlace, signedBy } = edition
  return (
    <div className="edition">
      <p>
        <strong>{TICKET_WORDS.card(edition)}</strong>{' '}
        {archivePlace !== null && TICKET_WORDS.archived(archivePlace)}{' '}
        {signedBy !== null && TICKET_WORDS.signedBy(signedBy)}
      </p>
      <SecondAct onPress={() => void act({ kind: 'open again' })}>
        {TICKET_WORDS.openAgain}
      </SecondAct>
    </div>
  )
}

/** What was tallied; where nothing was, as many as are wanted. */
function countsOf({ given }: Ticket, wanted: number): Counts {
  const { numbered, artistProofs, proofs } = given
  const isTallied = numbered + artistProofs + proofs > 0
  return {
    numbered: String(isTallied ? numbered : wanted),
    artistProofs: String(artistProofs),
    proofs: String(proofs),
  }
}

const WHOLE = /^\d{1,7}$/

function CloseEdition({ ticket, act, wrong }: EditionProps): ReactNode {
  const good = ticket.layers.at(-1)?.good ?? 0
  const wanted = Math.min(good, ticket.editionCount ?? good)
  const [isOpen, setOpen] = useState(false)
  const [counts, setCounts] = useState<Counts | null>(null)
  const [archivePlace, setArchive] = useState('')
  const [signedBy, setSigned] = useState('')
  const [isAsked, setAsked] = useState(false)
  // as the sheets stand now, until somebody writes something else
  const shown = counts ?? countsOf(ticket, wanted)
  const entry = (name: keyof Counts): ReactNode => (
    <Entry
      label={TICKET_WORDS[name]}
      value={shown[name]}
      figures="whole"
      wrong={isAsked && !WHOLE.test(shown[name]) ? TICKET_WORDS.closeWrong : null}
      onEntry={(written) => setCounts({ ...shown, [name]: written })}
    />
  )
  const close = async (): Promise<void> => {
    setAsked(true)
    if (!Object.values(shown).every((written) => WHOLE.test(written))) return
    const card = {
      numbered: Number(shown.numbered),
      artistProofs: Number(shown.artistProofs),
      proofs: Number(shown.proofs),
    }
    await act({
      kind: 'close',
      ...card,
      ...(archivePlace.trim() === '' ? {} : { archivePlace: archivePlace.trim() }),
      ...(signedBy.trim() === '' ? {} : { signedBy: signedBy.trim() }),
    })
  }
  return (
    <div className="edition unfolding">
      <GivenOut ticket={ticket} act={act} />
      {ticket.next === null && !isOpen ? (
        <div>
          <Button onPress={() => setOpen(true)}>{TICKET_WORDS.close}</Button>
        </div>
      ) : (
        <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
          {TICKET_WORDS.close}
        </SecondAct>
      )}
      {isOpen && (
        <div className="unfolded">
          <p>{TICKET_WORDS.closeLead(good)}</p>
          <div className="entries">
            {entry('numbered')}
            {entry('artistProofs')}
            {entry('proofs')}
          </div>
          <div className="entries">
            <Entry
              label={TICKET_WORDS.archive}
              value={archivePlace}
              example={TICKET_WORDS.archiveExample}
              longest={120}
              onEntry={setArchive}
            />
            <Entry label={TICKET_WORDS.signed} value={signedBy} longest={120} onEntry={setSigned} />
          </div>
          {wrong !== null && (
            <p role="alert" className="entry-wrong">
              {wrong}
            </p>
          )}
          <div>
            <Button onPress={() => void close()}>{TICKET_WORDS.closeAct}</Button>
          </div>
        </div>
      )}
    </div>
  )
}

type Counts = Readonly<Record<'numbered' | 'artistProofs' | 'proofs', string>>
