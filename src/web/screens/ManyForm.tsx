import type { ReactNode } from 'react'
import { Wrong } from '../people/Wrong.tsx'
import { Link, ROUTES } from '../router.tsx'
import { Button } from '../signs/Button.tsx'
import '../tests/entry.css'
import './screens.css'
import { SCREENS_WORDS } from './screensWords.ts'

/** How a form for many screens ends: what is wrong, the act, and the way back to all of them. */
export function ManyForm({
  says,
  act,
}: Readonly<{
  says: string | null
  /** Null: there is nothing to do. */
  act: Readonly<{ word: string; isBusy: boolean; onPress: () => void }> | null
}>): ReactNode {
  return (
    <>
      <Wrong says={says} />
      <div className="entry-acts">
        {act !== null && (
          <Button busy={act.isBusy} onPress={act.onPress}>
            {act.word}
          </Button>
        )}
        <Link to={ROUTES.screens} className="second-act">
          <span>{SCREENS_WORDS.register}</span>
        </Link>
      </div>
    </>
  )
}

/** A screen that is chosen or not. */
export function ScreenTick({
  tag,
  says,
  isOn,
  onToggle,
}: Readonly<{ tag: string; says: string; isOn: boolean; onToggle: () => void }>): ReactNode {
  return (
    <label className="choose-one">
      <input type="checkbox" checked={isOn} onChange={onToggle} />
      <span className="screen-line-tag">{tag}</span>
      <span className="soft">{says}</span>
    </label>
  )
}
