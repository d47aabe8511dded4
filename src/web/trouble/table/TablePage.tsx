import { type ReactNode, useState } from 'react'
import type { TroubleTable } from '../../../api/diagnosis.ts'
import { PATHS } from '../../../api/paths.ts'
import { Standing } from '../../frame/Standing.tsx'
import { Link, ROUTES } from '../../router.tsx'
import { Button, SecondAct } from '../../signs/Button.tsx'
import '../../shopRoom/shopRoom.css'
import '../../tests/entry.css'
import { useAsked } from '../../useAsked.ts'
import { FRAME_WORDS } from '../../words.ts'
import '../trouble.css'
import { CauseEntry } from './CauseEntry.tsx'
import { CauseInTable } from './CauseInTable.tsx'
import { SignEntry } from './SignEntry.tsx'
import { TABLE_WORDS } from './tableWords.ts'

const TABLE = { path: PATHS.troubleTable }

/** The table behind “Why did it fail?”: causes that open to their signs, and what a lead may change. */
export function TablePage(): ReactNode {
  const words = TABLE_WORDS
  const [asked, askAgain] = useAsked<TroubleTable>(TABLE)
  const [adds, setAdds] = useState<'cause' | 'sign' | null>(null)
  const kept = (): void => {
    setAdds(null)
    askAgain()
  }
  const adding = (what: 'cause' | 'sign'): void => setAdds(adds === what ? null : what)
  const table = asked.answer
  return (
    <div className="shop-room trouble-table">
      <header className="room-head">
        <h1>{FRAME_WORDS.causesTitle}</h1>
        <p>{words.lead}</p>
        <Standing asked={asked} working={words.fetching} onAgain={askAgain} />
      </header>
      {table !== null && (
        <>
          <div className="room-add">
            <Button expanded={adds === 'cause'} onPress={() => adding('cause')}>
              {words.addCause}
            </Button>
            <SecondAct expanded={adds === 'sign'} onPress={() => adding('sign')}>
              {words.addSign}
            </SecondAct>
            <Link to={ROUTES.trouble} className="second-act">
              <span>{words.linkFailure}</span>
            </Link>
          </div>
          {adds === 'cause' && (
            <CauseEntry cause={null} onKept={kept} onLeave={() => setAdds(null)} />
          )}
          {adds === 'sign' && <SignEntry onKept={kept} onLeave={() => setAdds(null)} />}
          <ul className="room-list">
            {table.causes.map((cause) => (
              <CauseInTable
                key={cause.cause}
                cause={cause}
                signs={table.signs}
                onChanged={askAgain}
              />
            ))}
          </ul>
          <p className="small">{words.learned(table.learnedFrom)}</p>
          <p className="small">{words.caution}</p>
        </>
      )}
    </div>
  )
}
