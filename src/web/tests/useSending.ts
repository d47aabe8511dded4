import { useState } from 'react'
import { ask, type Question } from '../ask.ts'
import { FRAME_WORDS } from '../words.ts'

/** Something that is told to the shop once; what was entered stays whatever comes back. */
export type Sending<Answer> = Readonly<{
  isBusy: boolean
  /** Why it was not taken, in one sentence. */
  message: string | null
  /** The field that sentence is about. */
  field: string | null
  /** Null when it was not taken. */
  send: (question: Question<Answer>) => Promise<Answer | null>
  forget: () => void
}>

type State = Readonly<{ isBusy: boolean; message: string | null; field: string | null }>
const STILL: State = { isBusy: false, message: null, field: null }

export function useSending<Answer>(): Sending<Answer> {
  const [state, setState] = useState(STILL)
  const send = async (question: Question<Answer>): Promise<Answer | null> => {
    setState({ ...STILL, isBusy: true })
    const reply = await ask<Answer>(question)
    switch (reply.kind) {
      case 'answer':
        setState(STILL)
        return reply.answer
      case 'refused':
        setState({ isBusy: false, message: reply.message, field: reply.field })
        return null
      case 'opening':
        setState({ ...STILL, message: FRAME_WORDS.opening })
        return null
      case 'no connection':
        setState({ ...STILL, message: SENT_NOTHING })
        return null
    }
  }
  return { ...state, send, forget: () => setState(STILL) }
}

const SENT_NOTHING =
  'No connection to the shop’s computer. What you wrote is kept here: send it again later.'
