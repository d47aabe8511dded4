import { type ReactNode, useState } from 'react'
import type { PlanAsked, PrintPlanTold } from '../../api/printPlan.ts'
import { capital, weightText } from '../../workflow/printPlanNumbers.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { amountEntry, amountUnit, amountWritten, type Measure } from './amounts.ts'
import { PLAN_WORDS } from './planWords.ts'
import type { PlanHeld } from './usePlan.ts'

type Field = Readonly<{
  name: keyof typeof PLAN_WORDS.fields
  measure?: Measure
  /** Of time; what it is in is not the page’s to say. */
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
  { name: 'offContact', measure: 'length', of: ({ offContactMm }) => offContactMm },
  { name: 'pot', measure: 'volume', of: ({ potCm3 }) => potCm3 },
  { name: 'pull', unit: 's', of: ({ pullSec }) => pullSec },
  { name: 'dry', unit: 'min', of: ({ dryMin }) => dryMin },
  { name: 'shelves', isWhole: true, of: ({ shelves }) => shelves },
  { name: 'width', measure: 'length', of: ({ sheetMm }) => sheetMm?.widthMm },
  { name: 'height', measure: 'length', of: ({ sheetMm }) => sheetMm?.heightMm },
  { name: 'screenCost', of: ({ screenCost }) => screenCost },
  { name: 'filmCost', of: ({ filmCost }) => filmCost },
]

/** No print is further out of register than that. */
const MOST_SD_MM = 10

/** What is not as usual about printing this ticket. */
export function PlanChange({
  plan,
  held,
}: Readonly<{ plan: PrintPlanTold; held: PlanHeld }>): ReactNode {
  const { asked, papers, units } = plan
  const [isOpen, setOpen] = useState(false)
  const [written, setWritten] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(
      FIELDS.map(({ name, measure = 'plain', of }) => [
        name,
        amountEntry(of(asked), measure, units),
      ]),
    ),
  )
  const [paper, setPaper] = useState(asked.paper ?? '')
  const [isRested, setRested] = useState(asked.paperRested ?? true)
  const [sds, setSds] = useState<readonly string[]>(() =>
    plan.shares.map(({ sdMm }) => amountEntry(sdMm, 'length', units)),
  )
  const [mixed, setMixed] = useState<Readonly<Record<string, string>>>(asked.mixed ?? {})
  const [isAsked, setAsked] = useState(false)
  const sdOf = (text: string): number | null => {
    const sdMm = amountWritten(text, 'length', units)
    return sdMm === null || sdMm > MOST_SD_MM ? null : sdMm
  }
  const wrongSd = (text: string): string | null => (sdOf(text) === null ? PLAN_WORDS.number : null)
  const wrongOf = ({ name, measure = 'plain', isWhole = false }: Field): string | null => {
    const text = written[name]?.trim() ?? ''
    if (text === '') return null
    if (isWhole) return /^\d{1,6}$/.test(text) ? null : PLAN_WORDS.whole
    return amountWritten(text, measure, units) === null ? PLAN_WORDS.number : null
  }
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (FIELDS.some((field) => wrongOf(field) !== null)) return
    if (sds.some((text) => wrongSd(text) !== null)) return
    const isAsWas = plan.shares.every(
      ({ sdMm }, at) => amountEntry(sdMm, 'length', units) === sds[at],
    )
    const shares = isAsWas
      ? asked.shares
      : plan.shares.map((each, at) => ({ ...each, sdMm: sdOf(sds[at] ?? '') ?? each.sdMm }))
    await held.settle({
      ...settledOf(written, { shares, units }),
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
                {...unitOf(field, plan)}
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
                  : recipe.parts
                      .map(({ name, grams }) => `${weightText(grams, units)} ${name}`)
                      .join(', ')
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
                unit={amountUnit('length', units) ?? ''}
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

/** What stands beside a field: its unit, or the shop’s money. */
function unitOf(
  { name, unit, measure = 'plain' }: Field,
  { units, currency }: PrintPlanTold,
): Readonly<{ unit?: string }> {
  const isMoney = name === 'screenCost' || name === 'filmCost'
  const said = unit ?? amountUnit(measure, units) ?? (isMoney ? (currency ?? undefined) : undefined)
  return said === undefined ? {} : { unit: said }
}

/** What is left empty is as usual. */
function settledOf(
  written: Readonly<Record<string, string>>,
  { shares, units }: Readonly<{ shares: PlanAsked['shares']; units: PrintPlanTold['units'] }>,
): PlanAsked {
  const number = (name: Field['name']): number | undefined => {
    const text = written[name]?.trim() ?? ''
    const measure = FIELDS.find((field) => field.name === name)?.measure ?? 'plain'
    return amountWritten(text, measure, units) ?? undefined
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
