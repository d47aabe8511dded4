import type { ReactNode } from 'react'
import { Blank } from '../../signs/Blank.tsx'
import type { Draft } from './draft.ts'
import { READ_WORDS } from './readWords.ts'

const WAYS = [
  { id: 'picture', name: READ_WORDS.byPicture },
  { id: 'ticks', name: READ_WORDS.byTicks },
] as const

/** Whether it is told by one picture or by two ticks. */
export function GradeBy({
  by,
  onBy,
}: Readonly<{ by: Draft['by']; onBy: (by: Draft['by']) => void }>): ReactNode {
  return (
    <p className="grade-by">
      {READ_WORDS.gradeBy}{' '}
      <Blank
        label={READ_WORDS.gradeBy}
        value={by}
        choices={WAYS}
        onChoice={(id) => onBy(id === 'ticks' ? 'ticks' : 'picture')}
      />
    </p>
  )
}
