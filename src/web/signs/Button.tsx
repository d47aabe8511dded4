import type { ReactNode } from 'react'
import './button.css'

export type ButtonProps = Readonly<{
  children: ReactNode
  onPress?: () => void
  /** It sends the form it stands in. */
  kind?: 'button' | 'submit'
  /** As wide as its column. */
  wide?: boolean
  /** It is being done: a second press does nothing. */
  busy?: boolean
  expanded?: boolean
  controls?: string
}>

/** The one thing to do next: ink, with a yellow plate out of register. */
export function Button({
  children,
  onPress,
  kind = 'button',
  wide = false,
  busy = false,
  expanded,
  controls,
}: ButtonProps): ReactNode {
  return (
    <button
      type={kind}
      className={wide ? 'act act-wide' : 'act'}
      aria-disabled={busy}
      aria-expanded={expanded}
      aria-controls={controls}
      onClick={() => {
        if (!busy) onPress?.()
      }}
    >
      {children}
    </button>
  )
}

/** A second thing one could do: words with a line under them. */
export function SecondAct({
  children,
  onPress,
  expanded,
  controls,
}: Readonly<{
  children: ReactNode
  onPress: () => void
  expanded?: boolean
  controls?: string
}>): ReactNode {
  return (
    <button
      type="button"
      className="second-act"
      aria-expanded={expanded}
      aria-controls={controls}
      onClick={onPress}
    >
      <span>{children}</span>
    </button>
  )
}
