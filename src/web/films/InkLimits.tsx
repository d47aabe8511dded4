import type { ReactNode } from 'react'
import { COVERAGE, COVERAGE_LIMIT } from '../../core/separation/inkLimit.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { isIn } from '../../core/units/range.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { SecondAct } from '../signs/Button.tsx'
import { Figure } from './Figure.tsx'
import { FILMS_WORDS, percentText } from './filmsWords.ts'
import { PRINTS_WORDS } from './printsWords.ts'

const { more } = FILMS_WORDS
const { limit: says } = PRINTS_WORDS

export type WrongIn = (...fields: readonly string[]) => string | null

type InkLimitsProps = Readonly<{
  file: PlanFile
  plan: FilmPlan
  wrongIn: WrongIn
  /** Of the shop, in solids. */
  inkLimit: number
  onPlan: (file: PlanFile) => void
  onInkLimit: (coverage: number) => void
}>

/** What the plan says of ink at one place, in a few words; nothing where it says nothing. */
export function limitsSay({ limits, mode }: FilmPlan): readonly string[] {
  if (limits === undefined) return []
  const percent = String(Math.round(100 * limits.coverage))
  return [
    mode === 'process' ? more.toldCoverage(percent) : more.toldLimits(String(limits.inks), percent),
  ]
}

/** How much ink may lie at one place, where tones lie on each other. */
export function InkLimits(props: InkLimitsProps): ReactNode {
  const { plan, inkLimit, onInkLimit } = props
  if (plan.mode !== 'spot' && plan.mode !== 'process') return null
  const own = plan.limits?.coverage
  return (
    <>
      {plan.mode === 'spot' ? <OfChosen {...props} /> : <OfFour {...props} />}
      {own !== undefined && own !== inkLimit && (
        <p>
          <SecondAct onPress={() => onInkLimit(own)}>{says.forShop(percentText(own))}</SecondAct>
        </p>
      )}
    </>
  )
}

/** More than dries is never laid down. */
const DRIES = { coverage: COVERAGE_LIMIT, inks: 6 }

function OfChosen({ file, plan, wrongIn, onPlan }: InkLimitsProps): ReactNode {
  const limits = plan.limits ?? DRIES
  const put = (change: Partial<typeof limits>): void =>
    onPlan({ ...file, limits: { ...limits, ...change } })
  return (
    <p>
      {more.limits}
      <Figure
        label={more.limitInks}
        value={Math.min(limits.inks, plan.inks.length)}
        wrong={wrongIn('limits.inks')}
        onFigure={(inks) => put({ inks })}
      />
      {more.limitsAnd}
      <Figure
        label={more.limitCoverage}
        value={100 * limits.coverage}
        wrong={wrongIn('limits.coverage')}
        onFigure={(percent) => put({ coverage: percent / 100 })}
      />
      {more.limitsEnd}
    </p>
  )
}

function OfFour({ file, plan, wrongIn, inkLimit, onPlan }: InkLimitsProps): ReactNode {
  const own = plan.limits?.coverage
  const keep = (coverage: number): void => onPlan({ ...file, limits: { coverage } })
  if (own === undefined) {
    return (
      <p>
        {says.asParted}
        <SecondAct onPress={() => keep(inkLimit)}>{says.keep(percentText(inkLimit))}</SecondAct>
      </p>
    )
  }
  return (
    <>
      <p>
        {says.upTo}
        <Figure
          label={more.limitCoverage}
          value={100 * own}
          wrong={wrongIn('limits.coverage')}
          onFigure={(percent) => {
            if (isIn(percent / 100, COVERAGE)) keep(percent / 100)
          }}
        />
        {says.end}
        <span className="soft">{says.usual(percentText(inkLimit))}</span>
      </p>
      <p>
        <SecondAct
          onPress={() => {
            const { limits: _, ...rest } = file
            onPlan(rest)
          }}
        >
          {says.letGo}
        </SecondAct>
      </p>
    </>
  )
}
