import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Stock, StockCounted } from '../../api/printPlan.ts'
import { Standing } from '../frame/Standing.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'
import { PLAN_WORDS } from './planWords.ts'

const STOCK = { path: PATHS.stock }
const NEW = 'new'
const NUMBER = /^\d{1,6}(\.\d{1,3})?$/
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
  const count = async (body: StockCounted, name: string): Promise<void> => {
    if ((await sending.send({ path: PATHS.stock, method: 'POST', body })) === null) return
    setSaid(PLAN_WORDS.counted(name))
    askAgain()
    onCounted()
  }
  return (
    <div className="unfolded">
      <p>{PLAN_WORDS.shelfLead}</p>
      <Standing asked={asked} working={PLAN_WORDS.shelfFetching} onAgain={askAgain} />
      {stock !== null && (
        <>
          <InkCount inks={stock.inks} count={count} />
          <PaperCount papers={stock.papers} count={count} />
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

type Count = (body: StockCounted, name: string) => Promise<void>

function InkCount({ inks, count }: Readonly<{ inks: Stock['inks']; count: Count }>): ReactNode {
  const [written, setWritten] = useState<Written>({})
  const [isAsked, setAsked] = useState(false)
  const ink = inks.find(({ id }) => id === written['ink'])
  const [grams = '', price = ''] = [written['grams'], written['price']]
  const isPriced = price === '' || NUMBER.test(price)
  const act = async (): Promise<void> => {
    setAsked(true)
    if (ink === undefined || !NUMBER.test(grams) || !isPriced) return
    const pricePerKg = price === '' ? null : Number(price)
    await count({ kind: 'ink', ink: ink.id, grams: Number(grams), pricePerKg }, ink.name)
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
            const text = (value: number | null | undefined): string => String(value ?? '')
            setWritten({ ink: id, grams: text(chosen?.grams), price: text(chosen?.pricePerKg) })
          }}
        />
      </p>
      {ink !== undefined && (
        <div className="entries">
          <Entry
            label={PLAN_WORDS.grams}
            value={grams}
            unit="g"
            figures="decimal"
            wrong={isAsked && !NUMBER.test(grams) ? PLAN_WORDS.number : null}
            onEntry={(text) => setWritten({ ...written, grams: text })}
          />
          <Entry
            label={PLAN_WORDS.perKg}
            value={price}
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
  papers,
  count,
}: Readonly<{ papers: Stock['papers']; count: Count }>): ReactNode {
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
    const isWhole =
      text('name') !== '' &&
      NUMBER.test(text('width')) &&
      NUMBER.test(text('height')) &&
      WHOLE.test(text('sheets')) &&
      (text('price') === '' || NUMBER.test(text('price')))
    setWrong(isWhole ? null : PLAN_WORDS.paperMissing)
    if (!isWhole) return
    const paper = {
      kind: 'paper' as const,
      name: text('name'),
      widthMm: Number(text('width')),
      heightMm: Number(text('height')),
      sheets: Number(text('sheets')),
      pricePerSheet: text('price') === '' ? null : Number(text('price')),
    }
    await count(chosen === NEW ? paper : { ...paper, paper: chosen }, paper.name)
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
            setWritten({ paper: id, ...asWritten(papers.find((each) => each.id === id)) })
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
            {entry('width', PLAN_WORDS.fields.width, 'mm')}
            {entry('height', PLAN_WORDS.fields.height, 'mm')}
            {entry('sheets', PLAN_WORDS.sheets)}
            {entry('price', PLAN_WORDS.perSheet)}
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

function asWritten(paper: Stock['papers'][number] | undefined): Written {
  if (paper === undefined) return {}
  const { name, widthMm, heightMm, sheets, pricePerSheet } = paper
  return {
    name,
    width: String(widthMm),
    height: String(heightMm),
    sheets: String(sheets),
    price: String(pricePerSheet ?? ''),
  }
}
