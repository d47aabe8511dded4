import type { ReactNode } from 'react'
import './tape.css'

/** A torn strip of tape across the head: what kind of shop this is. */
export function Tape({ children }: Readonly<{ children: ReactNode }>): ReactNode {
  return <p className="tape">{children}</p>
}
