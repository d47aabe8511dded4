import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Stock, StockCounted } from '../../api/printPlan.ts'
import { Standing } from '../frame/Standing.tsx'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import type { Units } from '../signs/Ruler.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'
import { amountEntry, amountUnit, amountWritten } from './amounts.ts'
import { PLAN_WORDS } from './planWords.ts'

const STOCK = { path: PATHS.stock }
const NEW = 'new'
const WHOLE = /^\d{1,6}$/

type Written = Readonly<Record<string, string>>

/** Inks and papers are counted here, one at a time. */
export function PlanShelf({ onCounted }: Readonly<{ onCounted: () => void }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {PLAN_WORDS.shelf}
      </SecondAct>
      {isOpen && <Shelf onCounted={onCounted} />}
    </div>
  )
}

function Shelf({ onCounted }: Readonly<{ onCounted: () => void }>): ReactNode {
  const [asked, askAgain] = useAsked<Stock>(STOCK)
  const sending = useSending<Stock>()
  const [said, setSaid] = useState('')
  const stock = asked.answer
  const count = async (body: StockCounted, says: string): Promise<void> => {
    if ((await sending.send({ path: PATHS.stock, method: 'POST', body })) === null) return
    setSaid(says)
    askAgain()
    onCounted()
  }
  return (
    <div className="unfolded">
      <p>{PLAN_WORDS.shelfLead}</p>
      <Standing asked={asked} working={PLAN_WORDS.shelfFetching} onAgain={askAgain} />
      {stock !== null && (
        <>
          <Currency currency={stock.currency} count={count} />
          <InkCount stock={stock} count={count} />
          <PaperCount stock={stock} count={count} />
        </>
      )}
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <p role="status" className="said">
        {said}
      </p>
    </div>
  )
}

/** What was counted, and what is said once it is. */
type Count = (body: StockCounted, says: string) => Promise<void>

/** What prices are in; none of them is changed by it. */
function Currency({
  currency,
  count,
}: Readonly<{ currency: string | null; count: Count }>): ReactNode {
  return (
    <p className="sentence">
      {PLAN_WORDS.currencyIs}
      <Blank
        label={PLAN_WORDS.currency}
        value={currency ?? ''}
        choices={CURRENCIES}
        open={PLAN_WORDS.aCurrency}
        onChoice={(chosen) => {
          if (chosen !== '')
            void count({ kind: 'currency', currency: chosen }, PLAN_WORDS.pricesIn(nameOf(chosen)))
        }}
      />
      .
    </p>
  )
}

const CURRENCY_NAMES = new Intl.DisplayNames('en-GB', { type: 'currency' })

function nameOf(code: string): string {
  return `${CURRENCY_NAMES.of(code) ?? code} (${code})`
}

const CURRENCIES = Intl.supportedValuesOf('currency')
  .map((id) => ({ id, name: nameOf(id) }))
  .toSorted((a, b) => a.name.localeCompare(b.name, 'en-GB'))

/** The unit beside a price: the shop’s money, where it is known. */
function priceUnit(currency: string | null): Readonly<{ unit?: string }> {
  return currency === null ? {} : { unit: currency }
}

function InkCount({
  stock: { inks, currency },
  count,
}: Readonly<{ stock: Stock; count: Count }>): ReactNode {
  const units = useUnits()
  const [written, setWritten] = useState<Written>({})
  const [isAsked, setAsked] = useState(false)
  const ink = inks.find(({ id }) => id === written['ink'])
  const [grams = '', price = ''] = [written['grams'], written['price']]
  const left = amountWritten(grams, 'weight', units)
  const pricePerKg = price === '' ? null : amountWritten(price, 'pricePerWeight', units)
  const isPriced = price === '' || pricePerKg !== null
  const act = async (): Promise<void> => {
    setAsked(true)
    if (ink === undefined || left === null || !isPriced) return
    await count({ kind: 'ink', ink: ink.id, grams: left, pricePerKg }, PLAN_WORDS.counted(ink.name))
  }
  return (
    <>
      <p className="sentence">
        <Blank
          label={PLAN_WORDS.whichInk}
          value={ink?.id ?? ''}
          choices={inks}
          open={PLAN_WORDS.anInk}
          onChoice={(id) => {
            const chosen = inks.find((each) => each.id === id)
            setWritten({
              ink: id,
              grams: amountEntry(chosen?.grams, 'weight', units),
              price: amountEntry(chosen?.pricePerKg, 'pricePerWeight', units),
            })
          }}
        />
      </p>
      {ink !== undefined && (
        <div className="entries">
          <Entry
            label={PLAN_WORDS.grams}
            value={grams}
            unit={amountUnit('weight', units) ?? ''}
            figures="decimal"
            wrong={isAsked && left === null ? PLAN_WORDS.number : null}
            onEntry={(text) => setWritten({ ...written, grams: text })}
          />
          <Entry
            label={PLAN_WORDS.perKg[units]}
            value={price}
            {...priceUnit(currency)}
            figures="decimal"
            wrong={isAsked && !isPriced ? PLAN_WORDS.number : null}
            onEntry={(text) => setWritten({ ...written, price: text })}
          />
        </div>
      )}
      {ink !== undefined && <SecondAct onPress={() => void act()}>{PLAN_WORDS.countInk}</SecondAct>}
    </>
  )
}

function PaperCount({
  stock: { papers, currency },
  count,
}: Readonly<{ stock: Stock; count: Count }>): ReactNode {
  const units = useUnits()
  const [written, setWritten] = useState<Written>({})
  const [wrong, setWrong] = useState<string | null>(null)
  const chosen = written['paper'] ?? ''
  const text = (name: string): string => written[name]?.trim() ?? ''
  const entry = (name: string, label: string, unit?: string): ReactNode => (
    <Entry
      label={label}
      value={written[name] ?? ''}
      figures={name === 'sheets' ? 'whole' : 'decimal'}
      {...(unit === undefined ? {} : { unit })}
      onEntry={(value) => setWritten({ ...written, [name]: value })}
    />
  )
  const act = async (): Promise<void> => {
    const widthMm = amountWritten(text('width'), 'length', units)
    const heightMm = amountWritten(text('height'), 'length', units)
    const pricePerSheet = text('price') === '' ? null : amountWritten(text('price'), 'plain', units)
    const isWhole =
      text('name') !== '' &&
      WHOLE.test(text('sheets')) &&
      (text('price') === '' || pricePerSheet !== null)
    const isMissing = !isWhole || widthMm === null || heightMm === null
    setWrong(isMissing ? PLAN_WORDS.paperMissing : null)
    if (isMissing) return
    const sheets = Number(text('sheets'))
    const paper = {
      kind: 'paper' as const,
      name: text('name'),
      widthMm,
      heightMm,
      sheets,
      pricePerSheet,
    }
    await count(
      chosen === NEW ? paper : { ...paper, paper: chosen },
      PLAN_WORDS.counted(paper.name),
    )
  }
  return (
    <>
      <p className="sentence">
        <Blank
          label={PLAN_WORDS.whichPaper}
          value={chosen}
          choices={[...papers, { id: NEW, name: PLAN_WORDS.newPaper }]}
          open={PLAN_WORDS.noPaper}
          onChoice={(id) =>
            setWritten({
              paper: id,
              ...asWritten(
                papers.find((each) => each.id === id),
                units,
              ),
            })
          }
        />
      </p>
      {chosen !== '' && (
        <>
          <Entry
            label={PLAN_WORDS.paperName}
            value={written['name'] ?? ''}
            example={PLAN_WORDS.paperExample}
            longest={120}
            onEntry={(name) => setWritten({ ...written, name })}
          />
          <div className="entries">
            {entry('width', PLAN_WORDS.sheetWide, amountUnit('length', units))}
            {entry('height', PLAN_WORDS.fields.height, amountUnit('length', units))}
            {entry('sheets', PLAN_WORDS.sheets)}
            {entry('price', PLAN_WORDS.perSheet, currency ?? undefined)}
          </div>
          {wrong !== null && (
            <p role="alert" className="entry-wrong">
              {wrong}
            </p>
          )}
          <SecondAct onPress={() => void act()}>{PLAN_WORDS.countPaper}</SecondAct>
        </>
      )}
    </>
  )
}

function asWritten(paper: Stock['papers'][number] | undefined, units: Units): Written {
  if (paper === undefined) return {}
  const { name, widthMm, heightMm, sheets, pricePerSheet } = paper
  return {
    name,
    width: amountEntry(widthMm, 'length', units),
    height: amountEntry(heightMm, 'length', units),
    sheets: String(sheets),
    price: String(pricePerSheet ?? ''),
  }
}
