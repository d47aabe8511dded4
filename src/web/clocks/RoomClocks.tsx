import type { ReactNode } from 'react'
import { ClockLine } from './ClockLine.tsx'
import { CLOCKS_WORDS } from './clocksWords.ts'
import { useClocks } from './useClocks.ts'

/** All clocks of the room, whoever started them; nothing while none runs. */
export function RoomClocks(): ReactNode {
  const { clocks, nowMs } = useClocks()
  if (clocks.length === 0) return null
  return (
    <section className="room-clocks">
      <h2>{CLOCKS_WORDS.room}</h2>
      {clocks.map((clock) => (
        <ClockLine key={clock.key} clock={clock} nowMs={nowMs} />
      ))}
    </section>
  )
}

/** The clock of one screen that somebody else started; one's own is in sight on every page. */
export function ScreenClock({ tag }: Readonly<{ tag: string }>): ReactNode {
  const { clocks, nowMs } = useClocks()
  const own = clocks.filter(({ screen, mine }) => screen === tag && !mine)
  return own.map((clock) => <ClockLine key={clock.key} clock={clock} nowMs={nowMs} />)
}
