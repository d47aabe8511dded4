import { type ReactNode, useEffect, useState } from 'react'
import { CLOCKS_CHANGED, endClock, ownClocks, startClock } from '../clocks/clockStore.ts'
import { keep, kept } from '../kept.ts'
import { NotShown } from '../people/NotShown.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { SCREENS_WORDS } from './screensWords.ts'
import type { Act } from './useScreen.ts'

/** How long the remover stays on, as it was last chosen on this device. */
const KEY = 'yellowroom.remover.minutes'
const MINUTES = ['1', '2', '3', '5', '10'] as const
/** Judged: the remover's own sheet decides. */
const USUAL = '2'

/** Taking the stencil off: what can hurt, and a clock that follows whoever put the remover on. */
export function Reclaiming({
  tag,
  isBusy,
  act,
}: Readonly<{ tag: string; isBusy: boolean; act: (what: Act) => Promise<void> }>): ReactNode {
  const words = SCREENS_WORDS.reclaim
  const [minutes, setMinutes] = useState(() => kept(KEY) ?? USUAL)
  const [refused, setRefused] = useState<string | null>(null)
  const isOn = useIsOn(tag)
  const start = async (): Promise<void> => {
    keep(KEY, minutes)
    setRefused(await startClock(tag, 60 * Number(minutes)))
  }
  const clean = async (haze: boolean): Promise<void> => {
    for (const { key, screen, sec, endedAt } of ownClocks()) {
      if (screen === tag && endedAt === null) await endClock(key, screen, sec)
    }
    await act({ kind: 'reclaimed', haze })
  }
  return (
    <div className="unfolded">
      <p className="cautions">{words.caution}</p>
      <NotShown act="reclaim" />
      <p className="how">{words.how}</p>
      {!isOn && (
        <>
          <p className="sentence">
            {`${words.rings} `}
            <Blank
              label={words.rings}
              value={minutes}
              choices={MINUTES.map((id) => ({ id, name: words.minutes(Number(id)) }))}
              onChoice={setMinutes}
            />
            {words.sheet}
          </p>
          <SecondAct onPress={() => void start()}>{words.start}</SecondAct>
        </>
      )}
      {refused !== null && (
        <p role="alert" className="entry-wrong">
          {refused}
        </p>
      )}
      <Button busy={isBusy} onPress={() => void clean(false)}>
        {words.clean}
      </Button>
      <SecondAct onPress={() => void clean(true)}>{words.ghost}</SecondAct>
    </div>
  )
}

/** Its remover is on, as this device started it: the clock is in sight already. */
function useIsOn(tag: string): boolean {
  const [isOn, setOn] = useState(() => runsFor(tag))
  useEffect(() => {
    const changed = (): void => setOn(runsFor(tag))
    addEventListener(CLOCKS_CHANGED, changed)
    return () => removeEventListener(CLOCKS_CHANGED, changed)
  }, [tag])
  return isOn
}

function runsFor(tag: string): boolean {
  return ownClocks().some(({ screen, endedAt }) => screen === tag && endedAt === null)
}
