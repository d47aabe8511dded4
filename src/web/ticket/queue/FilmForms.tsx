import { type ReactNode, useState } from 'react'
import type { FilmQueue, FilmQueueAct } from '../../../api/filmQueue.ts'
import { BAR, MEASURED } from '../../../core/filmQueue/scaleCheck.ts'
import { isIn } from '../../../core/units/range.ts'
import { useUnits } from '../../shop.tsx'
import { SecondAct } from '../../signs/Button.tsx'
import { Entry } from '../../tests/Entry.tsx'
import { amountEntry, amountUnit, amountWritten } from '../amounts.ts'
import { QUEUE_WORDS } from './queueWords.ts'

type FilmTold = FilmQueue['films'][number]
type Noted = (act: FilmQueueAct) => Promise<void>

/** The bar on our own papers and films. */
const USUAL_BAR_MM = 100

type Written = Readonly<{ bar: string; measured: string; acrossBar: string; across: string }>

/** The scale bar typed back, and the way across it. */
export function MeasureBar({
  crosses,
  onNote,
}: Readonly<{ crosses: FilmTold['crosses']; onNote: Noted }>): ReactNode {
  const units = useUnits()
  const [written, setWritten] = useState<Written>(() => ({
    bar: amountEntry(USUAL_BAR_MM, 'length', units),
    measured: '',
    acrossBar: amountEntry(crosses?.acrossMm, 'length', units),
    across: '',
  }))
  const [isAsked, setAsked] = useState(false)
  const mm = (text: string): number => amountWritten(text, 'length', units) ?? Number.NaN
  const isEmpty = written.across.trim() === ''
  const isWrong = {
    bar: !isIn(mm(written.bar), BAR),
    measured: !isIn(mm(written.measured), MEASURED),
    acrossBar: !isEmpty && !isIn(mm(written.acrossBar), BAR),
    across: !isEmpty && !isIn(mm(written.across), MEASURED),
  }
  const note = (): void => {
    setAsked(true)
    if (Object.values(isWrong).includes(true)) return
    const across = { barMm: mm(written.acrossBar), measuredMm: mm(written.across) }
    const along = { barMm: mm(written.bar), measuredMm: mm(written.measured) }
    void onNote({ kind: 'measured', ...along, ...(isEmpty ? {} : { across }) })
  }
  const entry = (name: keyof Written, label: string, wrong: string): ReactNode => (
    <Entry
      label={label}
      value={written[name]}
      unit={amountUnit('length', units) ?? ''}
      figures="decimal"
      wrong={isAsked && isWrong[name] ? wrong : null}
      onEntry={(text) => setWritten({ ...written, [name]: text })}
    />
  )
  return (
    <div className="unfolded">
      <p className="how">{QUEUE_WORDS.measureLead}</p>
      <div className="entries">
        {entry('bar', QUEUE_WORDS.barLength, QUEUE_WORDS.measuredWrong)}
        {entry('measured', QUEUE_WORDS.measured, QUEUE_WORDS.measuredWrong)}
      </div>
      <div className="entries">
        {entry('acrossBar', QUEUE_WORDS.acrossBar, QUEUE_WORDS.acrossWrong)}
        {entry('across', QUEUE_WORDS.acrossMeasured, QUEUE_WORDS.acrossWrong)}
      </div>
      <SecondAct onPress={note}>{QUEUE_WORDS.note}</SecondAct>
    </div>
  )
}

/** Where it lies until it is fetched. */
export function WhereItLies({
  liesIn,
  onNote,
}: Readonly<{ liesIn: string | null; onNote: Noted }>): ReactNode {
  const [where, setWhere] = useState(liesIn ?? '')
  const [isAsked, setAsked] = useState(false)
  const isWrong = where.trim() === ''
  const note = (): void => {
    setAsked(true)
    if (!isWrong) void onNote({ kind: 'lies', where: where.trim() })
  }
  return (
    <div className="unfolded">
      <Entry
        label={QUEUE_WORDS.where}
        value={where}
        example={QUEUE_WORDS.whereExample}
        longest={120}
        wrong={isAsked && isWrong ? QUEUE_WORDS.whereWrong : null}
        onEntry={setWhere}
      />
      <SecondAct onPress={note}>{QUEUE_WORDS.note}</SecondAct>
    </div>
  )
}
