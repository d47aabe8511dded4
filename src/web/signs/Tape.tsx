import type { ReactNode } from 'react'
import './tape.css'

/** A torn strip of tape across the head: what kind of shop this is. */
export function Tape({
  children,
  rest = null,
}: Readonly<{
  children: ReactNode
  /** What is on paper and read aloud, where the screen has no room. */
  rest?: string | null
}>): ReactNode {
  return (
    <p className="tape">
      {children}
      {rest !== null && <span className="tape-rest">{rest}</span>}
    </p>
  )
}
