import { createContext, type ReactNode, useContext, useEffect, useMemo } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Me } from '../../api/people.ts'
import { SIGNED_OUT } from '../ask.ts'
import { isBench } from '../router.tsx'
import { useAsked } from '../useAsked.ts'

type KnownMe = Readonly<{ me: Me | null; askAgain: () => void }>

const MeContext = createContext<KnownMe | null>(null)
const QUESTION = { path: PATHS.me }

/** Knows who is signed in on this device. */
export function MeRoom({ children }: Readonly<{ children: ReactNode }>): ReactNode {
  const [{ answer }, askAgain] = useAsked<Me>(QUESTION)
  useEffect(() => {
    // at the bench a lamp may be lit: its step stays, and is told once somebody signs in again
    const ended = (): void => {
      if (!isBench(location.pathname)) askAgain()
    }
    addEventListener(SIGNED_OUT, ended)
    return () => removeEventListener(SIGNED_OUT, ended)
  }, [askAgain])
  const known = useMemo(() => ({ me: answer, askAgain }), [answer, askAgain])
  return <MeContext value={known}>{children}</MeContext>
}

/** @throws RangeError outside of a MeRoom */
export function useMe(): KnownMe {
  const me = useContext(MeContext)
  if (me === null) throw new RangeError('useMe: expected a MeRoom around the page')
  return me
}
