import { type ReactNode, useState } from 'react'
import type { NewTroubleRow, TroubleTable } from '../../../api/diagnosis.ts'
import { PATHS } from '../../../api/paths.ts'
import { Entry } from '../../tests/Entry.tsx'
import { useSending } from '../../tests/useSending.ts'
import type { TableCause } from './CauseInTable.tsx'
import { chanceIn, chanceText } from './figures.ts'
import { RowActs, Tick } from './RowActs.tsx'
import { TABLE_WORDS } from './tableWords.ts'

const NEW = { says: '', share: '3', now: '', next: '', isUsed: true }

/** A cause of the shop's own, or its word over one that the table has. */
export function CauseEntry({
  cause,
  onKept,
  onLeave,
}: Readonly<{ cause: TableCause | null; onKept: () => void; onLeave: () => void }>): ReactNode {
  const words = TABLE_WORDS
  const [draft, setDraft] = useState(
    cause === null ? NEW : { ...cause, share: chanceText(cause.share) },
  )
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<TroubleTable>()
  const texts = { says: draft.says.trim(), now: draft.now.trim(), next: draft.next.trim() }
  const share = chanceIn(draft.share)
  const lacks = (text: string): string | null => (isAsked && text === '' ? words.wrong.text : null)
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (Object.values(texts).includes('') || Number.isNaN(share) || sending.isBusy) return
    const body: NewTroubleRow = {
      kind: 'cause',
      ...(cause === null ? {} : { cause: cause.cause }),
      ...texts,
      share,
      isUsed: draft.isUsed,
      isSeen: false,
    }
    if ((await sending.send({ path: PATHS.troubleTable, method: 'POST', body })) !== null) onKept()
  }
  return (
    <div className="unfolded">
      <Entry
        label={words.says}
        value={draft.says}
        longest={160}
        wrong={lacks(texts.says)}
        onEntry={(says) => setDraft({ ...draft, says })}
      />
      <Entry
        label={words.share}
        value={draft.share}
        figures="decimal"
        wrong={isAsked && Number.isNaN(share) ? words.wrong.figure : null}
        onEntry={(text) => setDraft({ ...draft, share: text })}
      />
      <Entry
        label={words.nowEntry}
        value={draft.now}
        longest={160}
        wrong={lacks(texts.now)}
        onEntry={(now) => setDraft({ ...draft, now })}
      />
      <Entry
        label={words.nextEntry}
        value={draft.next}
        longest={160}
        wrong={lacks(texts.next)}
        onEntry={(next) => setDraft({ ...draft, next })}
      />
      {cause !== null && (
        <Tick
          label={words.isUsed}
          is={draft.isUsed}
          onTick={(isUsed) => setDraft({ ...draft, isUsed })}
        />
      )}
      <RowActs sending={sending} onKeep={() => void keep()} onLeave={onLeave} />
    </div>
  )
}
