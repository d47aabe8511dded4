import type { ReactNode } from 'react'
import type { ScreenLine } from '../../api/register.ts'
import { Link, screenRoute } from '../router.tsx'
import { StationFrame } from '../signs/StationFrame.tsx'
import { shortDay, shortlyOn, stationOf } from './screenSays.ts'
import './screens.css'
import { SCREENS_WORDS } from './screensWords.ts'

/** A screen as one line: its frame, its tag, whose, what next, where. */
export function ScreenInList({
  screen,
  also,
  isUnderName = false,
}: Readonly<{
  screen: ScreenLine
  also?: string | undefined
  /** Whose it is stands over the list already. */
  isUnderName?: boolean
}>): ReactNode {
  const { tag, fabric, rackSlot, owner, keptUntil, next } = screen
  const where = [fabric, rackSlot].filter((part) => part !== null).join(', ')
  const whose =
    owner === null || isUnderName
      ? SCREENS_WORDS.is[screen.state]
      : keptUntil === null
        ? SCREENS_WORDS.owned(owner.name)
        : SCREENS_WORDS.ownedUntil(owner.name, shortDay(keptUntil))
  return (
    <Link to={screenRoute(tag)} className="screen-line">
      <StationFrame state={stationOf(screen)} size={32} />
      <span className="screen-line-tag">{tag}</span>
      <span className="screen-line-says">
        <strong>{whose}</strong> {also ?? shortlyOn(screen)}
      </span>
      <span className="soft">{where}</span>
      <span className="screen-line-next">{SCREENS_WORDS.next[next]}</span>
    </Link>
  )
}
