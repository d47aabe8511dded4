import { type ReactNode, useState } from 'react'
import type { InkAsked, Ticket } from '../../api/tickets.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { InkBlanks } from './InkBlanks.tsx'
import { TICKET_WORDS } from './ticketWords.ts'
import type { Act } from './useTicket.ts'

const WORDS = TICKET_WORDS.about
const WHOLE = /^[1-9]\d{0,6}$/

/** What was said when the ticket was opened, said anew; and a layer more. */
export function AboutTicket({
  ticket,
  act,
}: Readonly<{ ticket: Ticket; act: (act: Act) => Promise<boolean> }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {WORDS.open}
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <Facts ticket={ticket} act={act} onDone={() => setOpen(false)} />
          <OneMoreLayer ticket={ticket} act={act} onDone={() => setOpen(false)} />
        </div>
      )}
    </div>
  )
}

type AboutProps = Readonly<{
  ticket: Ticket
  act: (act: Act) => Promise<boolean>
  onDone: () => void
}>

function Facts({ ticket, act, onDone }: AboutProps): ReactNode {
  const { people } = ticket
  const [name, setName] = useState(ticket.name)
  const [owner, setOwner] = useState(people.find((each) => each.name === ticket.owner)?.id ?? '')
  const [edition, setEdition] = useState(String(ticket.editionCount ?? ''))
  const [paper, setPaper] = useState(ticket.paper ?? '')
  const [isAsked, setAsked] = useState(false)
  const isWrong = {
    name: name.trim() === '',
    edition: edition.trim() !== '' && !WHOLE.test(edition.trim()),
  }
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (isWrong.name || isWrong.edition) return
    const about = {
      name: name.trim(),
      owner: owner === '' ? null : owner,
      paper: paper.trim() === '' ? null : paper.trim(),
      editionCount: edition.trim() === '' ? null : Number(edition),
    }
    if (await act({ kind: 'about', ...about })) onDone()
  }
  return (
    <>
      <Entry
        label={TICKET_WORDS.fresh.name}
        value={name}
        longest={120}
        wrong={isAsked && isWrong.name ? TICKET_WORDS.fresh.nameMissing : null}
        onEntry={setName}
      />
      <p className="sentence">
        {`${TICKET_WORDS.fresh.whose}: `}
        <Blank
          label={TICKET_WORDS.fresh.whose}
          value={owner}
          choices={people}
          open={TICKET_WORDS.fresh.nobody}
          onChoice={setOwner}
        />
        .
      </p>
      <div className="entries">
        <Entry
          label={TICKET_WORDS.fresh.edition}
          value={edition}
          figures="whole"
          wrong={isAsked && isWrong.edition ? TICKET_WORDS.fresh.editionWrong : null}
          onEntry={setEdition}
        />
      </div>
      <PaperEntry papers={ticket.papers} paper={paper} onPaper={setPaper} />
      <SecondAct onPress={() => void keep()}>{WORDS.keep}</SecondAct>
    </>
  )
}

const OTHER = 'other'

/** A paper of the shelf, or another in a few words. */
export function PaperEntry({
  papers,
  paper,
  onPaper,
}: Readonly<{
  papers: Ticket['papers']
  paper: string
  onPaper: (paper: string) => void
}>): ReactNode {
  const known = papers.find(({ name }) => name === paper)
  const [isOther, setOther] = useState(paper !== '' && known === undefined)
  const words = TICKET_WORDS.fresh
  return (
    <>
      {papers.length > 0 && (
        <p className="sentence">
          {`${words.paper}: `}
          <Blank
            label={words.whichPaper}
            value={isOther ? OTHER : (known?.id ?? '')}
            choices={[...papers, { id: OTHER, name: words.otherPaper }]}
            open={words.noPaper}
            onChoice={(chosen) => {
              setOther(chosen === OTHER)
              onPaper(papers.find(({ id }) => id === chosen)?.name ?? '')
            }}
          />
          .
        </p>
      )}
      {(isOther || papers.length === 0) && (
        <Entry
          label={words.paper}
          value={paper}
          example={words.paperExample}
          longest={120}
          onEntry={onPaper}
        />
      )}
    </>
  )
}

function OneMoreLayer({ ticket, act, onDone }: AboutProps): ReactNode {
  const [inks, setInks] = useState<readonly InkAsked[]>([])
  const [isAsked, setAsked] = useState(false)
  const isNameless = (ink: InkAsked): boolean => typeof ink !== 'string' && ink.name.trim() === ''
  const isWrong = inks.length === 0 || inks.some(isNameless)
  const add = async (): Promise<void> => {
    setAsked(true)
    if (isWrong) return
    for (const ink of inks) if (!(await act({ kind: 'layer', ink }))) return
    onDone()
  }
  return (
    <>
      <p>{WORDS.layerLead}</p>
      <InkBlanks
        inks={inks}
        known={ticket.inks}
        onInks={setInks}
        wrong={isAsked && isWrong ? TICKET_WORDS.fresh.inkMissing : null}
      />
      <SecondAct onPress={() => void add()}>{WORDS.addLayer}</SecondAct>
    </>
  )
}
