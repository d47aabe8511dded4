import { type ReactNode, useState } from 'react'
import type { FilmQueueAct } from '../../../api/filmQueue.ts'
import { BAR, MEASURED } from '../../../core/filmQueue/scaleCheck.ts'
import { isIn } from '../../../core/units/range.ts'
import { SecondAct } from '../../signs/Button.tsx'
import { Entry } from '../../tests/Entry.tsx'
import { QUEUE_WORDS } from './queueWords.ts'

type Noted = (act: FilmQueueAct) => Promise<void>

/** The bar on our own papers and films. */
const USUAL_BAR = '100'

/** The scale bar typed back. */
export function MeasureBar({ onNote }: Readonly<{ onNote: Noted }>): ReactNode {
  const [bar, setBar] = useState(USUAL_BAR)
  const [measured, setMeasured] = useState('')
  const [isAsked, setAsked] = useState(false)
  const [barMm, measuredMm] = [bar, measured].map(numberOf) as [number, number]
  const isWrong = { bar: !isIn(barMm, BAR), measured: !isIn(measuredMm, MEASURED) }
  const note = (): void => {
    setAsked(true)
    if (!isWrong.bar && !isWrong.measured) void onNote({ kind: 'measured', barMm, measuredMm })
  }
  return (
    <div className="unfolded">
      <p className="how">{QUEUE_WORDS.measureLead}</p>
      <div className="entries">
        <Entry
          label={QUEUE_WORDS.barLength}
          value={bar}
          unit="mm"
          figures="decimal"
          wrong={isAsked && isWrong.bar ? QUEUE_WORDS.measuredWrong : null}
          onEntry={setBar}
        />
        <Entry
          label={QUEUE_WORDS.measured}
          value={measured}
          unit="mm"
          figures="decimal"
          wrong={isAsked && isWrong.measured ? QUEUE_WORDS.measuredWrong : null}
          onEntry={setMeasured}
        />
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

function numberOf(written: string): number {
  const plain = written.trim().replace(',', '.')
  return plain === '' ? Number.NaN : Number(plain)
}
