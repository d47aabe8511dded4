import type { ReactNode } from 'react'
import type { Asked } from '../asked.ts'
import { clockText } from '../figures.ts'
import { SecondAct } from '../signs/Button.tsx'
import { FRAME_WORDS } from '../words.ts'

/**
 * How an answer stands, where that is worth a word: it takes long, it was refused, there is no
 * connection. Said to screen readers as well, without moving anything.
 */
export function Standing({
  asked,
  working,
  onAgain,
}: Readonly<{ asked: Asked<unknown>; working: string; onAgain: () => void }>): ReactNode {
  const says = words(asked, working)
  return (
    <div className="standing" aria-live="polite">
      {says !== null && (
        <p className={asked.now === 'refused' ? 'standing-refused' : 'standing-says'}>{says}</p>
      )}
      {asked.now === 'refused' && <SecondAct onPress={onAgain}>{FRAME_WORDS.again}</SecondAct>}
    </div>
  )
}

function words({ now, slow, message, answeredAt }: Asked<unknown>, working: string): string | null {
  switch (now) {
    case 'here':
      return null
    case 'working':
      return slow ? working : null
    case 'opening':
      return slow ? FRAME_WORDS.opening : null
    case 'refused':
      return message
    case 'no connection':
      return answeredAt === null
        ? FRAME_WORDS.noConnection
        : FRAME_WORDS.asOf(clockText(answeredAt))
  }
}
