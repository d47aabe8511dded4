import type { ReactNode } from 'react'

/** What keeps a form from being taken, in a sentence; null: nothing. */
export function Wrong({ says }: Readonly<{ says: string | null }>): ReactNode {
  return (
    says !== null && (
      <p role="alert" className="entry-wrong">
        {says}
      </p>
    )
  )
}
