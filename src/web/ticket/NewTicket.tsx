import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Ticket, TicketList } from '../../api/tickets.ts'
import { ticketRoute, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { PaperEntry } from './AboutTicket.tsx'
import { InkBlanks, type InksChosen } from './InkBlanks.tsx'
import { TICKET_WORDS } from './ticketWords.ts'

const WHOLE = /^[1-9]\d{0,6}$/

/** A new print: its name, its inks in the order of printing, whose it is, how many. */
export function NewTicket({
  list,
  onLeave,
}: Readonly<{ list: TicketList; onLeave: () => void }>): ReactNode {
  const words = TICKET_WORDS.fresh
  const { go } = useWay()
  const [name, setName] = useState('')
  const [inks, setInks] = useState<InksChosen>([])
  const [owner, setOwner] = useState('')
  const [paper, setPaper] = useState('')
  const [edition, setEdition] = useState('')
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<Ticket>()
  const isWrong = {
    name: name.trim() === '',
    inks:
      inks.length === 0 || inks.some((ink) => typeof ink !== 'string' && ink.name.trim() === ''),
    edition: edition.trim() !== '' && !WHOLE.test(edition.trim()),
  }
  const open = async (): Promise<void> => {
    setAsked(true)
    if (Object.values(isWrong).includes(true)) return
    const answer = await sending.send({
      path: PATHS.tickets,
      method: 'POST',
      body: {
        name: name.trim(),
        inks,
        ...(owner === '' ? {} : { owner }),
        ...(paper.trim() === '' ? {} : { paper: paper.trim() }),
        ...(edition.trim() === '' ? {} : { editionCount: Number(edition) }),
      },
    })
    if (answer !== null) go(ticketRoute(answer.id))
  }
  return (
    <div className="unfolded">
      <p>{words.lead}</p>
      <Entry
        label={words.name}
        value={name}
        example={words.example}
        longest={120}
        wrong={isAsked && isWrong.name ? words.nameMissing : null}
        onEntry={setName}
      />
      <InkBlanks
        inks={inks}
        known={list.inks}
        onInks={setInks}
        wrong={isAsked && isWrong.inks ? words.inkMissing : null}
      />
      <p className="sentence">
        {`${words.whose}: `}
        <Blank
          label={words.whose}
          value={owner}
          choices={list.people}
          open={words.nobody}
          onChoice={setOwner}
        />
        .
      </p>
      <div className="entries">
        <Entry
          label={words.edition}
          value={edition}
          figures="whole"
          wrong={isAsked && isWrong.edition ? words.editionWrong : null}
          onEntry={setEdition}
        />
      </div>
      <PaperEntry papers={list.papers} paper={paper} onPaper={setPaper} />
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <div className="entry-acts">
        <Button onPress={() => void open()} busy={sending.isBusy}>
          {words.act}
        </Button>
        <SecondAct onPress={onLeave}>{words.leave}</SecondAct>
      </div>
    </div>
  )
}
