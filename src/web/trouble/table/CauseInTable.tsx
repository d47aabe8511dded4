import { type ReactNode, useId, useState } from 'react'
import type { TroubleTable } from '../../../api/diagnosis.ts'
import { troubleRowPath } from '../../../api/paths.ts'
import { SecondAct } from '../../signs/Button.tsx'
import { useSending } from '../../tests/useSending.ts'
import { CauseEntry } from './CauseEntry.tsx'
import { LinkEntry } from './LinkEntry.tsx'
import { TABLE_WORDS } from './tableWords.ts'

export type TableCause = TroubleTable['causes'][number]

/** A cause as a sentence that opens to what to do and to its signs. */
export function CauseInTable({
  cause,
  signs,
  onChanged,
}: Readonly<{
  cause: TableCause
  signs: TroubleTable['signs']
  onChanged: () => void
}>): ReactNode {
  const words = TABLE_WORDS
  const [isOpen, setOpen] = useState(false)
  const [doing, setDoing] = useState<'cause' | 'link' | null>(null)
  const sending = useSending<TroubleTable>()
  const id = useId()
  const kept = (): void => {
    setDoing(null)
    onChanged()
  }
  const takeBack = async (row: string): Promise<void> => {
    const question = { path: troubleRowPath(row), method: 'DELETE' } as const
    if ((await sending.send(question)) !== null) kept()
  }
  const line = cause.isUsed
    ? `${words.causeLine(cause.says, cause.shareNow)}${words.confirmed(cause.confirmed)}`
    : words.unusedLine(cause.says)
  return (
    <li className="room-line">
      <button
        type="button"
        className="room-says"
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setOpen(!isOpen)}
      >
        <span>{`${line}${cause.row === null ? '' : words.yours}.`}</span>
      </button>
      <div id={id} className="room-facts" hidden={!isOpen}>
        <p>{words.now(cause.now)}</p>
        <p>{words.next(cause.next)}</p>
        {cause.isUsed && (cause.links.length === 0 ? <p>{words.none}</p> : <Links cause={cause} />)}
        <div className="room-acts">
          <SecondAct
            expanded={doing === 'cause'}
            onPress={() => setDoing(doing === 'cause' ? null : 'cause')}
          >
            {words.changeCause}
          </SecondAct>
          {cause.isUsed && (
            <SecondAct
              expanded={doing === 'link'}
              onPress={() => setDoing(doing === 'link' ? null : 'link')}
            >
              {words.changeLink}
            </SecondAct>
          )}
          {cause.row !== null && (
            <SecondAct onPress={() => void takeBack(cause.row ?? '')}>{words.back}</SecondAct>
          )}
        </div>
        {sending.message !== null && (
          <p role="alert" className="entry-wrong">
            {sending.message}
          </p>
        )}
        {doing === 'cause' && (
          <CauseEntry cause={cause} onKept={kept} onLeave={() => setDoing(null)} />
        )}
        {doing === 'link' && (
          <LinkEntry
            cause={cause}
            signs={signs}
            onKept={kept}
            onBack={(row) => void takeBack(row)}
            onLeave={() => setDoing(null)}
          />
        )}
      </div>
    </li>
  )
}

function Links({ cause: { links } }: Readonly<{ cause: TableCause }>): ReactNode {
  const words = TABLE_WORDS
  return (
    <>
      <p>{words.linksLead}</p>
      <ul className="trouble-links">
        {links.map(({ sign, says, chance, chanceNow, isSeen }) => (
          <li key={sign}>
            {words.link(chanceNow, says)}
            {Math.abs(chance - chanceNow) >= 0.01 && words.moved(chance)}
            {isSeen && words.seen}
          </li>
        ))}
      </ul>
    </>
  )
}
