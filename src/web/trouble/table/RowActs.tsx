import type { ReactNode } from 'react'
import { Button, SecondAct } from '../../signs/Button.tsx'
import type { Sending } from '../../tests/useSending.ts'
import { TABLE_WORDS } from './tableWords.ts'

/** Keep a row or leave it, and why it was not taken. */
export function RowActs({
  sending,
  onKeep,
  onLeave,
  children,
}: Readonly<{
  sending: Pick<Sending<never>, 'isBusy' | 'message'>
  onKeep: () => void
  onLeave: () => void
  children?: ReactNode
}>): ReactNode {
  return (
    <>
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <div className="entry-acts">
        <Button busy={sending.isBusy} onPress={onKeep}>
          {TABLE_WORDS.keep}
        </Button>
        {children}
        <SecondAct onPress={onLeave}>{TABLE_WORDS.leave}</SecondAct>
      </div>
    </>
  )
}

/** A yes or no with its words. */
export function Tick({
  label,
  is,
  onTick,
}: Readonly<{ label: string; is: boolean; onTick: (is: boolean) => void }>): ReactNode {
  return (
    <label className="trouble-tick">
      <input type="checkbox" checked={is} onChange={() => onTick(!is)} />
      <span>{label}</span>
    </label>
  )
}
