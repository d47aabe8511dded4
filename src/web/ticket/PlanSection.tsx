import { type ReactNode, useEffect } from 'react'
import { editionCardPath, mixingCardPath } from '../../api/paths.ts'
import type { PrintPlanTold } from '../../api/printPlan.ts'
import type { Ticket } from '../../api/tickets.ts'
import { Standing } from '../frame/Standing.tsx'
import { ColourCheck, ColourChecks } from './ColourCheck.tsx'
import './plan.css'
import { fineText, moneyText, weightText } from '../../workflow/printPlanNumbers.ts'
import { PlanChange } from './PlanChange.tsx'
import { PlanShelf } from './PlanShelf.tsx'
import { PLAN_WORDS } from './planWords.ts'
import { usePlan } from './usePlan.ts'

const AGAIN_MS = 4000

/** What printing the ticket takes: four numbers, and sentences that open to why. */
export function PlanSection({ ticket }: Readonly<{ ticket: Ticket }>): ReactNode {
  const held = usePlan(ticket.id)
  const { asked, plan, askAgain, message } = held
  // A layer more, a film, a screen or another count: the plan is another.
  const about = JSON.stringify([ticket.editionCount, ticket.layers])
  useEffect(askAgain, [about])
  // A film that is still being read is counted as soon as it is.
  const waits =
    plan?.layers.some(
      ({ id, film }) =>
        film === null && ticket.layers.some((layer) => layer.id === id && isComing(layer)),
    ) === true
  useEffect(() => {
    if (!waits) return undefined
    const timer = setTimeout(askAgain, AGAIN_MS)
    return () => clearTimeout(timer)
  }, [waits, askAgain, asked])
  return (
    <section className="plan" aria-label={PLAN_WORDS.title}>
      <Standing asked={asked} working={PLAN_WORDS.fetching} onAgain={askAgain} />
      {plan !== null && (
        <>
          <Numbers plan={plan} />
          <h2>{PLAN_WORDS.title}</h2>
          <div className="plan-lines">
            {[...plan.lines, ...plan.layers.map(({ line }) => line)].map(({ says, why }) => (
              <Line key={says} says={says} why={why} />
            ))}
          </div>
          <ColourChecks plan={plan} held={held} isOpen={ticket.closedOn === null} />
          {message !== null && (
            <p role="alert" className="entry-wrong">
              {message}
            </p>
          )}
          {ticket.closedOn === null && (
            <>
              <PlanChange key={JSON.stringify(plan.asked)} plan={plan} held={held} />
              <ColourCheck plan={plan} held={held} />
              <PlanShelf onCounted={askAgain} />
            </>
          )}
          <p className="plan-papers">
            <a href={`${mixingCardPath(ticket.id)}?units=${plan.units}`} className="second-act">
              <span>{PLAN_WORDS.onPaper}</span>
            </a>
            <a href={`${editionCardPath(ticket.id)}?units=${plan.units}`} className="second-act">
              <span>{PLAN_WORDS.editionCard}</span>
            </a>
          </p>
        </>
      )}
    </section>
  )
}

function isComing({ film }: Ticket['layers'][number]): boolean {
  return film !== null && film.status !== 'failed'
}

/** A sentence; pressed, it says why. */
function Line({ says, why }: Readonly<{ says: string; why: readonly string[] }>): ReactNode {
  return (
    <details className="plan-line">
      <summary>{says}</summary>
      <ul>
        {why.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    </details>
  )
}

function Numbers({ plan }: Readonly<{ plan: PrintPlanTold }>): ReactNode {
  const { editionCount, wanted, register, layers, cost, units, currency } = plan
  if (editionCount === null || wanted === null) return null
  const open = layers
    .filter(({ isPrinted }) => !isPrinted)
    .flatMap(({ inkToMix }) => inkToMix ?? [])
  const sum = (of: (ink: (typeof open)[number]) => number): number =>
    open.reduce((total, ink) => total + of(ink), 0)
  const isAll = layers.every(({ isPrinted }) => isPrinted)
  return (
    <dl className="ticket-facts plan-numbers">
      <Fact value={String(editionCount)} about={PLAN_WORDS.wanted(wanted - editionCount)} />
      <Fact value={overlapText(register.trapMm, units)} about={PLAN_WORDS.overlap} />
      {open.length > 0 ? (
        <Fact
          value={weightText(
            sum(({ mixG }) => Math.ceil(mixG)),
            units,
          )}
          about={PLAN_WORDS.mix(
            weightText(
              sum(({ leftG }) => leftG),
              units,
            ),
          )}
        />
      ) : (
        isAll && <Fact value={weightText(0, units)} about={PLAN_WORDS.mixed} />
      )}
      {cost !== null && cost.total > 0 && (
        <Fact value={moneyText(cost.perPrint, currency)} about={PLAN_WORDS.each} />
      )}
    </dl>
  )
}

/** To the next tenth of a millimetre. */
function overlapText(trapMm: number, units: PrintPlanTold['units']): string {
  const tenth = Math.ceil(10 * trapMm - 1e-9) / 10
  return units === 'metric' ? `${tenth} mm` : fineText(tenth, units)
}

function Fact({ value, about }: Readonly<{ value: string; about: string }>): ReactNode {
  return (
    <div>
      <dt>{about}</dt>
      <dd>{value}</dd>
    </div>
  )
}
