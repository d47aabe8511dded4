import { type ReactNode, useEffect, useState } from 'react'
import { keep, kept } from '../kept.ts'
import { Button, SecondAct } from '../signs/Button.tsx'
import { SCREENS_WORDS } from './screensWords.ts'
import type { Act } from './useScreen.ts'

const keyOf = (tag: string): string => `yellowroom.remover.${tag}`
const SECOND_MS = 1000

/** Taking the stencil off: what can hurt, and how long the remover has been on; a reload loses nothing. */
export function Reclaiming({
  tag,
  isBusy,
  act,
}: Readonly<{ tag: string; isBusy: boolean; act: (what: Act) => Promise<void> }>): ReactNode {
  const words = SCREENS_WORDS.reclaim
  const [sinceMs, setSince] = useState(() => Number(kept(keyOf(tag)) ?? 0))
  const runs = useRunning(sinceMs)
  const start = (): void => {
    keep(keyOf(tag), String(Date.now()))
    setSince(Date.now())
  }
  const clean = async (haze: boolean): Promise<void> => {
    keep(keyOf(tag), '')
    await act({ kind: 'reclaimed', haze })
  }
  return (
    <div className="unfolded">
      <p className="cautions">{words.caution}</p>
      <p className="how">{words.how}</p>
      {runs === null ? (
        <SecondAct onPress={start}>{words.start}</SecondAct>
      ) : (
        <p role="timer" className="said">
          {words.since(runs)}
        </p>
      )}
      <Button busy={isBusy} onPress={() => void clean(false)}>
        {words.clean}
      </Button>
      <SecondAct onPress={() => void clean(true)}>{words.ghost}</SecondAct>
    </div>
  )
}

/** How long it has been, as 3:05; null: it was not begun. */
function useRunning(sinceMs: number): string | null {
  const [nowMs, setNow] = useState(() => Date.now())
  useEffect(() => {
    if (sinceMs === 0) return undefined
    const timer = setInterval(() => setNow(Date.now()), SECOND_MS)
    return () => clearInterval(timer)
  }, [sinceMs])
  if (!(sinceMs > 0)) return null
  const sec = Math.max(0, Math.floor((nowMs - sinceMs) / 1000))
  return `${Math.floor(sec / 60)}:${String(sec % 60).padStart(2, '0')}`
}
