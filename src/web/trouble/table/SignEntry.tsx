import { type ReactNode, useState } from 'react'
import type { NewTroubleRow, TroubleTable } from '../../../api/diagnosis.ts'
import { PATHS } from '../../../api/paths.ts'
import { Blank } from '../../signs/Blank.tsx'
import { Entry } from '../../tests/Entry.tsx'
import { useSending } from '../../tests/useSending.ts'
import { TROUBLE_WORDS } from '../troubleWords.ts'
import { chanceIn } from './figures.ts'
import { RowActs } from './RowActs.tsx'
import { TABLE_WORDS } from './tableWords.ts'

type Where = TroubleTable['signs'][number]['where']

const WHERES = Object.entries(TROUBLE_WORDS.where).map(([id, name]) => ({ id, name }))

/** A sign that the shop adds. */
export function SignEntry({
  onKept,
  onLeave,
}: Readonly<{ onKept: () => void; onLeave: () => void }>): ReactNode {
  const words = TABLE_WORDS
  const [says, setSays] = useState('')
  const [where, setWhere] = useState<Where>('at the sink')
  const [often, setOften] = useState('5')
  const [how, setHow] = useState('')
  const [minutes, setMinutes] = useState('')
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<TroubleTable>()
  const elsewhere = chanceIn(often)
  const long = Number(minutes.replace(',', '.'))
  const isTest = how.trim() !== ''
  const wrong = {
    says: says.trim() === '' ? words.wrong.text : null,
    often: Number.isNaN(elsewhere) ? words.wrong.figure : null,
    minutes: isTest && !(long >= 1 && long <= 1440) ? words.wrong.minutes : null,
  }
  const shown = (text: string | null): string | null => (isAsked ? text : null)
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (Object.values(wrong).some((each) => each !== null) || sending.isBusy) return
    const body: NewTroubleRow = {
      kind: 'sign',
      where,
      says: says.trim(),
      elsewhere,
      test: isTest ? { how: how.trim(), minutes: long } : null,
      isSeen: false,
    }
    if ((await sending.send({ path: PATHS.troubleTable, method: 'POST', body })) !== null) onKept()
  }
  return (
    <div className="unfolded">
      <Entry
        label={words.signSays}
        value={says}
        longest={160}
        wrong={shown(wrong.says)}
        onEntry={setSays}
      />
      <p className="sentence">
        {`${words.where}: `}
        <Blank
          label={words.where}
          value={where}
          choices={WHERES}
          onChoice={(id) => setWhere(id as Where)}
        />
      </p>
      <Entry
        label={words.elsewhere}
        value={often}
        figures="decimal"
        wrong={shown(wrong.often)}
        onEntry={setOften}
      />
      <Entry label={words.how} value={how} longest={160} onEntry={setHow} />
      {isTest && (
        <Entry
          label={words.minutes}
          value={minutes}
          figures="whole"
          wrong={shown(wrong.minutes)}
          onEntry={setMinutes}
        />
      )}
      <RowActs sending={sending} onKeep={() => void keep()} onLeave={onLeave} />
    </div>
  )
}
