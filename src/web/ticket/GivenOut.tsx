import { type ReactNode, useState } from 'react'
import type { Ticket } from '../../api/tickets.ts'
import type { EditionKind } from '../../core/ticket/edition.ts'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { TICKET_WORDS } from './ticketWords.ts'
import type { Act } from './useTicket.ts'

const WORDS = TICKET_WORDS.given
const KINDS: readonly EditionKind[] = ['numbered', 'artist proof', 'proof']
const WHOLE = /^[1-9]\d{0,3}$/

/** What becomes of the sheets that came through: a tap for each, and who signed them. */
export function GivenOut({
  ticket: { given, layers },
  act,
}: Readonly<{ ticket: Ticket; act: (act: Act) => Promise<boolean> }>): ReactNode {
  const [isSigning, setSigning] = useState(false)
  const give = (as: EditionKind, sheets: number): void => void act({ kind: 'edition', as, sheets })
  return (
    <div className="given-out">
      <p>{WORDS.says(given, layers.at(-1)?.good ?? 0)}</p>
      {given.left > 0 && (
        <div className="entry-acts">
          {KINDS.map((kind) => (
            <SecondAct key={kind} onPress={() => give(kind, 1)}>
              {WORDS.oneMore[kind]}
            </SecondAct>
          ))}
          {given.left > 1 && (
            <SecondAct onPress={() => give('numbered', given.left)}>
              {WORDS.rest(given.left)}
            </SecondAct>
          )}
        </div>
      )}
      <SecondAct expanded={isSigning} onPress={() => setSigning(!isSigning)}>
        {WORDS.sign}
      </SecondAct>
      {isSigning && (
        <Signing
          toSign={Math.max(1, given.numbered + given.artistProofs + given.proofs - given.signed)}
          onSigned={async (sheets, by) => {
            const who = by === '' ? {} : { by }
            if (await act({ kind: 'edition', as: 'signed', sheets, ...who })) setSigning(false)
          }}
        />
      )}
    </div>
  )
}

function Signing({
  toSign,
  onSigned,
}: Readonly<{
  toSign: number
  onSigned: (sheets: number, by: string) => Promise<void>
}>): ReactNode {
  const [count, setCount] = useState(String(toSign))
  const [by, setBy] = useState('')
  const [isAsked, setAsked] = useState(false)
  const isWrong = !WHOLE.test(count.trim())
  return (
    <div className="unfolded">
      <div className="entries">
        <Entry
          label={WORDS.signed}
          value={count}
          figures="whole"
          wrong={isAsked && isWrong ? WORDS.signedWrong : null}
          onEntry={setCount}
        />
        <Entry label={WORDS.by} value={by} longest={120} onEntry={setBy} />
      </div>
      <SecondAct
        onPress={() => {
          setAsked(true)
          if (!isWrong) void onSigned(Number(count.trim()), by.trim())
        }}
      >
        {WORDS.signAct}
      </SecondAct>
    </div>
  )
}
