import { useState } from 'react'
import { screenActsPath, screenPath } from '../../api/paths.ts'
import type { ScreenAct, ScreenPage } from '../../api/register.ts'
import type { Asked } from '../asked.ts'
import { newKey } from '../newKey.ts'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'

/** An act as a page names it: it gets its key when it is sent. */
export type Act = ScreenAct extends infer Each
  ? Each extends ScreenAct
    ? Omit<Each, 'key'>
    : never
  : never

export type ScreenAsked = Readonly<{
  asked: Asked<ScreenPage>
  page: ScreenPage | null
  askAgain: () => void
  message: string | null
  isBusy: boolean
  /** True when it was taken. */
  act: (act: Act) => Promise<boolean>
}>

/** A screen, and what is told of it; each answer is the whole screen as it then stands. */
export function useScreen(tag: string): ScreenAsked {
  const [asked, askAgain] = useAsked<ScreenPage>({ path: screenPath(tag) })
  const [since, setSince] = useState<ScreenPage | null>(null)
  const [unsent, setUnsent] = useState<Readonly<{ act: string; key: string }> | null>(null)
  const sending = useSending<ScreenPage>()
  const act = async (done: Act): Promise<boolean> => {
    const words = JSON.stringify(done)
    // The same again after no answer came: under the same key, so that it is taken down once.
    const key = unsent?.act === words ? unsent.key : newKey()
    setUnsent({ act: words, key })
    const question = { path: screenActsPath(tag), method: 'POST', body: { ...done, key } } as const
    const answer = await sending.send(question)
    if (answer === null) return false
    setUnsent(null)
    setSince(answer)
    return true
  }
  const page = since?.screen.tag === tag ? since : asked.answer
  const again = (): void => {
    setSince(null)
    askAgain()
  }
  return { asked, page, askAgain: again, message: sending.message, isBusy: sending.isBusy, act }
}
