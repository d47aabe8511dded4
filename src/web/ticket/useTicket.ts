import { useCallback, useEffect, useRef, useState } from 'react'
import { ticketActsPath, ticketPath } from '../../api/paths.ts'
import type { Ticket, TicketAct } from '../../api/tickets.ts'
import type { Asked } from '../asked.ts'
import { newKey } from '../newKey.ts'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'

/** An act as a page names it: what happened gets its key when it is sent. */
export type Act = TicketAct extends infer Each
  ? Each extends TicketAct
    ? Omit<Each, 'key'>
    : never
  : never

export type TicketAsked = Readonly<{
  asked: Asked<Ticket>
  ticket: Ticket | null
  askAgain: () => void
  /** Why the last act was not taken, in one sentence. */
  message: string | null
  field: string | null
  isBusy: boolean
  /** True when it was taken. */
  act: (act: Act) => Promise<boolean>
}>

const AGAIN_MS = 4000

/** A ticket, and what is told of it; each answer is the whole ticket as it then stands. */
export function useTicket(id: string): TicketAsked {
  const [asked, again] = useAsked<Ticket>({ path: ticketPath(id) })
  const [since, setSince] = useState<Ticket | null>(null)
  const unsent = useRef<Readonly<{ act: string; key: string }> | null>(null)
  const before = useRef<Promise<unknown>>(Promise.resolve())
  const sending = useSending<Ticket>()
  const sent = async (done: Act): Promise<boolean> => {
    const words = JSON.stringify(done)
    // The same again after no answer came: under the same key, so that it is taken down once.
    const key = unsent.current?.act === words ? unsent.current.key : newKey()
    unsent.current = { act: words, key }
    const body = HAPPENS.has(done.kind) ? { ...done, key } : done
    const answer = await sending.send({ path: ticketActsPath(id), method: 'POST', body })
    if (answer === null) return false
    unsent.current = null
    setSince(answer)
    return true
  }
  // One after another: five more and five more are ten, however slow the shop's computer is.
  const act = (done: Act): Promise<boolean> => {
    const turn = before.current.then(() => sent(done))
    before.current = turn.catch(() => false)
    return turn
  }
  const ticket = since?.id === id ? since : asked.answer
  const askAgain = useCallback((): void => {
    setSince(null)
    again()
  }, [again])
  // A film that is being read moves its layer on by itself.
  const waits = ticket?.layers.some(({ film }) => film?.status === 'waiting') === true
  useEffect(() => {
    if (!waits) return undefined
    const timer = setTimeout(askAgain, AGAIN_MS)
    return () => clearTimeout(timer)
  }, [waits, askAgain, asked])
  const { message, field, isBusy } = sending
  return { asked, ticket, askAgain, message, field, isBusy, act }
}

const HAPPENS: ReadonlySet<string> = new Set(['done', 'back', 'pulled', 'spoiled', 'edition'])
