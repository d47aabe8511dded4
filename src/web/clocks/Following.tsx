import { lazy, type ReactNode, Suspense, useEffect, useState } from 'react'
import { kept } from '../kept.ts'
import { useMe } from '../people/me.tsx'

/** As `clockStore.ts` has them; not fetched with it, for most visits have no clock. */
const CHANGED = 'yellowroom clocks'
const KEY = 'yellowroom.clocks'

const FollowingClocks = lazy(async () => ({
  default: (await import('./FollowingClocks.tsx')).FollowingClocks,
}))
const BenchClocks = lazy(async () => ({ default: (await import('./BenchClocks.tsx')).BenchClocks }))

/** Clocks are looked for where somebody is signed in, or has started one on this device. */
export function Following({
  atBench = null,
}: Readonly<{
  /** The exposure that is shown there: its own clock is on its step. */
  atBench?: Readonly<{ run: string | null }> | null
}>): ReactNode {
  const { me } = useMe()
  const [hasOwn, setOwn] = useState(() => (kept(KEY) ?? '') !== '')
  useEffect(() => {
    const changed = (): void => setOwn((kept(KEY) ?? '') !== '')
    addEventListener(CHANGED, changed)
    return () => removeEventListener(CHANGED, changed)
  }, [])
  if (!hasOwn && (me === null || me.person === null)) return null
  return (
    <Suspense fallback={null}>
      {atBench === null ? <FollowingClocks /> : <BenchClocks run={atBench.run} />}
    </Suspense>
  )
}
