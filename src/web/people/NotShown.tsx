import type { ReactNode } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { MayI } from '../../api/people.ts'
import type { MachineAct } from '../../core/register/machines.ts'
import { asking } from '../ask.ts'
import { useAsked } from '../useAsked.ts'
import { useMe } from './me.tsx'
import { Wrong } from './Wrong.tsx'

/**
 * What somebody was not shown for an act, and who can show it, before they begin it.
 *
 * @returns null: they may, or nobody has said yet
 */
export function useNotShown(act: MachineAct, unit: string | null = null): string | null {
  const { me } = useMe()
  // in an open shop nobody is asked
  const isAsked = me !== null && !me.isOpen && me.person !== null
  const query = new URLSearchParams({ act, ...(unit === null ? {} : { unit }) })
  const [asked] = useAsked<MayI>(isAsked ? { path: asking(PATHS.mayI, query) } : null)
  return isAsked ? (asked.answer?.says ?? null) : null
}

/** The same as words of a page in the light. */
export function NotShown({ act }: Readonly<{ act: MachineAct }>): ReactNode {
  const says = useNotShown(act)
  return <Wrong says={says} />
}
