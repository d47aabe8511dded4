import { type ReactNode, useId } from 'react'
import type { InkAsked, TicketList } from '../../api/tickets.ts'
import { Blank } from '../signs/Blank.tsx'
import { Entry } from '../tests/Entry.tsx'
import { TICKET_WORDS } from './ticketWords.ts'

const NEW = 'new'
const FIRST_COLOUR = '#1d1b18'

/** What was chosen for each place, in the order of printing. */
export type InksChosen = readonly InkAsked[]

/** Inks of the shop in the order of printing, and any that are new to it. */
export function InkBlanks({
  inks,
  known,
  onInks,
  wrong,
}: Readonly<{
  inks: InksChosen
  known: TicketList['inks']
  onInks: (inks: InksChosen) => void
  wrong: string | null
}>): ReactNode {
  const words = TICKET_WORDS.fresh
  const choices = [...known, { id: NEW, name: words.newInk }]
  const put = (place: number, ink: InkAsked): void => {
    const changed = [...inks.slice(0, place), ink, ...inks.slice(place + 1)]
    onInks(changed.filter((each) => each !== ''))
  }
  return (
    <>
      <p className="sentence">
        {[...inks, ''].map((chosen, place) => (
          // the place is what an ink of a print is known by
          // oxlint-disable-next-line react/no-array-index-key
          <span key={place}>
            {place > 0 && ', '}
            <Blank
              label={`${words.ink} ${place + 1}`}
              value={typeof chosen === 'string' ? chosen : NEW}
              choices={choices}
              open={place === 0 ? words.anInk : words.another}
              onChoice={(ink) => put(place, ink === NEW ? { name: '', colour: FIRST_COLOUR } : ink)}
            />
          </span>
        ))}
        .
      </p>
      {inks.map(
        (ink, place) =>
          typeof ink !== 'string' && (
            // oxlint-disable-next-line react/no-array-index-key
            <div key={place} className="entries">
              <Entry
                label={words.inkName(place + 1)}
                value={ink.name}
                example={words.inkExample}
                longest={80}
                wrong={ink.name.trim() === '' ? wrong : null}
                onEntry={(name) => put(place, { ...ink, name })}
              />
              <ColourEntry
                label={words.inkColour(place + 1)}
                value={ink.colour}
                onEntry={(colour) => put(place, { ...ink, colour })}
              />
            </div>
          ),
      )}
      {wrong !== null && inks.length === 0 && (
        <p role="alert" className="entry-wrong">
          {wrong}
        </p>
      )}
    </>
  )
}

/** The browser's own way to choose a colour. */
function ColourEntry({
  label,
  value,
  onEntry,
}: Readonly<{ label: string; value: string; onEntry: (colour: string) => void }>): ReactNode {
  const id = useId()
  return (
    <div className="entry">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="ink-colour"
        type="color"
        value={value}
        onChange={(event) => onEntry(event.target.value)}
      />
    </div>
  )
}
