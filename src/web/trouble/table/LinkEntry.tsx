import { type ReactNode, useState } from 'react'
import type { NewTroubleRow, TroubleTable } from '../../../api/diagnosis.ts'
import { PATHS } from '../../../api/paths.ts'
import { Blank } from '../../signs/Blank.tsx'
import { SecondAct } from '../../signs/Button.tsx'
import { Entry } from '../../tests/Entry.tsx'
import { useSending } from '../../tests/useSending.ts'
import type { TableCause } from './CauseInTable.tsx'
import { chanceIn, chanceText } from './figures.ts'
import { RowActs, Tick } from './RowActs.tsx'
import { TABLE_WORDS } from './tableWords.ts'

/** How often a sign is there when this is the cause. */
export function LinkEntry({
  cause: { cause, links },
  signs,
  onKept,
  onBack,
  onLeave,
}: Readonly<{
  cause: TableCause
  signs: TroubleTable['signs']
  onKept: () => void
  /** The shop's own word is taken back. */
  onBack: (row: string) => void
  onLeave: () => void
}>): ReactNode {
  const words = TABLE_WORDS
  const [sign, setSign] = useState('')
  const [text, setText] = useState('')
  const [isSeen, setSeen] = useState(false)
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<TroubleTable>()
  const link = links.find((each) => each.sign === sign)
  const chance = chanceIn(text)
  const choose = (chosen: string): void => {
    const is = links.find((each) => each.sign === chosen)
    setSign(chosen)
    setText(is === undefined ? '' : chanceText(is.chance))
    setSeen(is?.isSeen ?? false)
  }
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (sign === '' || Number.isNaN(chance) || sending.isBusy) return
    const body: NewTroubleRow = { kind: 'link', cause, sign, chance, isSeen }
    if ((await sending.send({ path: PATHS.troubleTable, method: 'POST', body })) !== null) onKept()
  }
  return (
    <div className="unfolded">
      <p className="sentence">
        {`${words.sign}: `}
        <Blank
          label={words.sign}
          value={sign}
          choices={signs.map((each) => ({ id: each.sign, name: each.says }))}
          open={words.whichSign}
          onChoice={choose}
        />
      </p>
      {isAsked && sign === '' && <p className="entry-wrong">{words.wrong.sign}</p>}
      <Entry
        label={words.chance}
        value={text}
        figures="decimal"
        wrong={isAsked && Number.isNaN(chance) ? words.wrong.figure : null}
        onEntry={setText}
      />
      <Tick label={words.isSeen} is={isSeen} onTick={setSeen} />
      <RowActs sending={sending} onKeep={() => void keep()} onLeave={onLeave}>
        {link !== undefined && link.row !== null && (
          <SecondAct onPress={() => onBack(link.row ?? '')}>{words.back}</SecondAct>
        )}
      </RowActs>
    </div>
  )
}
