import { useCallback, useState } from 'react'
import { type Path, planColourPath, planPath } from '../../api/paths.ts'
import type { ColourAsked, PlanAsked, PrintPlanTold } from '../../api/printPlan.ts'
import { asking } from '../ask.ts'
import type { Asked } from '../asked.ts'
import { useUnits } from '../shop.tsx'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'

export type PlanHeld = Readonly<{
  asked: Asked<PrintPlanTold>
  plan: PrintPlanTold | null
  askAgain: () => void
  /** Why the last was not taken, in one sentence. */
  message: string | null
  /** True when it was taken. */
  settle: (settled: PlanAsked) => Promise<boolean>
  check: (colour: ColourAsked) => Promise<boolean>
}>

/** A ticket's print plan; each answer is the whole plan as it then stands. */
export function usePlan(ticket: string): PlanHeld {
  const units = useUnits()
  const [asked, again] = useAsked<PrintPlanTold>({ path: asking(planPath(ticket), { units }) })
  const [since, setSince] = useState<PrintPlanTold | null>(null)
  const sending = useSending<PrintPlanTold>()
  const send = async (path: Path<{ POST: PrintPlanTold }>, body: unknown): Promise<boolean> => {
    const answer = await sending.send({ path, method: 'POST', body })
    if (answer !== null) setSince(answer)
    return answer !== null
  }
  const askAgain = useCallback((): void => {
    setSince(null)
    again()
  }, [again])
  return {
    asked,
    // an answer in other units is an old one
    plan: since?.units === units ? since : asked.answer,
    askAgain,
    message: sending.message,
    settle: (settled) => send(asking(planPath(ticket), { units }), settled),
    check: (colour) => send(asking(planColourPath(ticket), { units }), colour),
  }
}
