import { type ReactNode, useState } from 'react'
import type { PlanAsked, PrintPlanTold } from '../../api/printPlan.ts'
import { capital } from '../../workflow/printPlanNumbers.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { PLAN_WORDS } from './planWords.ts'
import type { PlanHeld } from './usePlan.ts'

type Field = Readonly<{
  name: keyof typeof PLAN_WORDS.fields
  unit?: string
  isWhole?: boolean
  /** What was settled, as it is written. */
  of: (asked: PlanAsked) => number | undefined
}>

const FIELDS: readonly Field[] = [
  { name: 'proofs', isWhole: true, of: ({ proofs }) => proofs },
  {
    name: 'spoiled',
    of: ({ spoiledShare }) => (spoiledShare === undefined ? undefined : 100 * spoiledShare),
  },
  { name: 'offContact', unit: 'mm', of: ({ offContactMm }) => offContactMm },
  { name: 'pot', unit: 'cm³', of: ({ potCm3 }) => potCm3 },
  { name: 'pull', unit: 's', of: ({ pullSec }) => pullSec },
  { name: 'dry', unit: 'min', of: ({ dryMin }) => dryMin },
  { name: 'shelves', isWhole: true, of: ({ shelves }) => shelves },
  { name: 'width', unit: 'mm', of: ({ sheetMm }) => sheetMm?.widthMm },
  { name: 'height', unit: 'mm', of: ({ sheetMm }) => sheetMm?.heightMm },
  { name: 'screenCost', of: ({ screenCost }) => screenCost },
  { name: 'filmCost', of: ({ filmCost }) => filmCost },
]

/** What is not as usual about printing this ticket. */
export function PlanChange({
  plan,
  held,
}: Readonly<{ plan: PrintPlanTold; held: PlanHeld }>): ReactNode {
  const { asked, papers } = plan
  const [isOpen, setOpen] = useState(false)
  const [written, setWritten] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(FIELDS.map(({ name, of }) => [name, String(of(asked) ?? '')])),
  )
  const [paper, setPaper] = useState(asked.paper ?? '')
  const [isRested, setRested] = useState(asked.paperRested ?? true)
  const [sds, setSds] = useState<readonly string[]>(() =>
    plan.shares.map(({ sdMm }) => String(sdMm)),
  )
  const [mixed, setMixed] = useState<Readonly<Record<string, string>>>(asked.mixed ?? {})
  const [isAsked, setAsked] = useState(false)
  const wrongSd = (text: string): string | null =>
    /^\d(\.\d{1,3})?$/.test(text.trim()) ? null : PLAN_WORDS.number
  const wrongOf = ({ name, isWhole = false }: Field): string | null => {
    const text = written[name]?.trim() ?? ''
    if (text === '' || (isWhole ? /^\d{1,6}$/ : /^\d{1,6}(\.\d{1,3})?$/).test(text)) return null
    return isWhole ? PLAN_WORDS.whole : PLAN_WORDS.number
  }
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (FIELDS.some((field) => wrongOf(field) !== null)) return
    if (sds.some((text) => wrongSd(text) !== null)) return
    const isAsWas = plan.shares.every(({ sdMm }, at) => sdMm === Number(sds[at]))
    const shares = isAsWas
      ? asked.shares
      : plan.shares.map((each, at) => ({ ...each, sdMm: Number(sds[at]) }))
    await held.settle({
      ...settledOf(written, shares),
      ...(paper === '' ? {} : { paper }),
      paperRested: isRested,
      mixed: Object.fromEntries(Object.entries(mixed).filter(([, text]) => text.trim() !== '')),
    })
  }
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {PLAN_WORDS.change}
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <p className="sentence">
            {PLAN_WORDS.paperIs}
            <Blank
              label={PLAN_WORDS.whichPaper}
              value={paper}
              choices={papers}
              open={PLAN_WORDS.noPaper}
              onChoice={setPaper}
            />
            {`. ${PLAN_WORDS.restedIs}`}
            <Blank
              label={PLAN_WORDS.restedLabel}
              value={isRested ? 'rested' : 'fresh'}
              choices={[
                { id: 'rested', name: PLAN_WORDS.rested },
                { id: 'fresh', name: PLAN_WORDS.fresh },
              ]}
              onChoice={(chosen) => setRested(chosen === 'rested')}
            />
            .
          </p>
          <div className="entries">
            {FIELDS.map((field) => (
              <Entry
                key={field.name}
                label={PLAN_WORDS.fields[field.name]}
                value={written[field.name] ?? ''}
                figures={field.isWhole === true ? 'whole' : 'decimal'}
                example={PLAN_WORDS.usual}
                {...(field.unit === undefined ? {} : { unit: field.unit })}
                wrong={isAsked ? wrongOf(field) : null}
                onEntry={(text) => setWritten({ ...written, [field.name]: text })}
              />
            ))}
          </div>
          <p>{PLAN_WORDS.mixedLead}</p>
          {plan.layers.map(({ id, ink, shortName, recipe }) => (
            <Entry
              key={id}
              label={capital(ink ?? shortName)}
              value={mixed[id] ?? ''}
              example={
                recipe === null
                  ? PLAN_WORDS.mixedExample
                  : recipe.parts.map(({ name, grams }) => `${grams} g ${name}`).join(', ')
              }
              longest={200}
              onEntry={(text) => setMixed({ ...mixed, [id]: text })}
            />
          ))}
          <p>{PLAN_WORDS.shares}</p>
          <div className="entries">
            {plan.shares.map(({ name }, at) => (
              <Entry
                key={name}
                label={PLAN_WORDS.spread(name)}
                value={sds[at] ?? ''}
                unit="mm"
                figures="decimal"
                wrong={isAsked ? wrongSd(sds[at] ?? '') : null}
                onEntry={(text) => setSds(sds.with(at, text))}
              />
            ))}
          </div>
          <SecondAct onPress={() => void keep()}>{PLAN_WORDS.keep}</SecondAct>
        </div>
      )}
    </div>
  )
}

/** What is left empty is as usual. */
function settledOf(
  written: Readonly<Record<string, string>>,
  shares: PlanAsked['shares'],
): PlanAsked {
  const number = (name: Field['name']): number | undefined => {
    const text = written[name]?.trim() ?? ''
    return text === '' ? undefined : Number(text)
  }
  const [widthMm, heightMm, spoiled] = [number('width'), number('height'), number('spoiled')]
  const settled = {
    shares,
    proofs: number('proofs'),
    spoiledShare: spoiled === undefined ? undefined : spoiled / 100,
    offContactMm: number('offContact'),
    potCm3: number('pot'),
    pullSec: number('pull'),
    dryMin: number('dry'),
    shelves: number('shelves'),
    sheetMm: widthMm === undefined || heightMm === undefined ? undefined : { widthMm, heightMm },
    screenCost: number('screenCost'),
    filmCost: number('filmCost'),
  }
  return Object.fromEntries(
    Object.entries(settled).filter(([, value]) => value !== undefined),
  ) as PlanAsked
}
