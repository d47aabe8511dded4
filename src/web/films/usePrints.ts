import { useCallback, useState } from 'react'
import type { InkLimitFacts, PrintsKnown, ToneCurveFacts } from '../../api/artwork.ts'
import { PATHS, toneCurvePath } from '../../api/paths.ts'
import { ask, type Question } from '../ask.ts'

/** What the shop learns of its prints here, for all artwork that comes. */
export type PrintsKept = Readonly<{
  onTints: (facts: ToneCurveFacts) => Promise<boolean>
  onStrike: (curve: string) => void
  onInkLimit: (coverage: number) => void
  /** What the last act was refused for. */
  message: string | null
}>

/** @param onKept told once the shop has it */
export function usePrints(onKept: () => void): PrintsKept {
  const [message, setMessage] = useState<string | null>(null)
  const asked = useCallback(
    async (question: Question<PrintsKnown>): Promise<boolean> => {
      const reply = await ask<PrintsKnown>(question)
      setMessage(reply.kind === 'refused' ? reply.message : null)
      if (reply.kind === 'answer') onKept()
      return reply.kind === 'answer'
    },
    [onKept],
  )
  return {
    onTints: (body) => asked({ path: PATHS.toneCurves, method: 'POST', body }),
    onStrike: (curve) => void asked({ path: toneCurvePath(curve), method: 'DELETE' }),
    onInkLimit: (coverage) => {
      const body: InkLimitFacts = { coverage }
      void asked({ path: PATHS.inkLimit, method: 'POST', body })
    },
    message,
  }
}
