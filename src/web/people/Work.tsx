import type { ReactNode } from 'react'
import { evidencePath } from '../../api/paths.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'

/** Somebody's work to take along, on paper and as data. */
export function Work({ id, name }: Readonly<{ id: string; name: string }>): ReactNode {
  const forms = [
    ['pdf', PEOPLE_WORDS.evidence],
    ['json', PEOPLE_WORDS.evidenceData],
  ] as const
  return (
    <div className="entry-acts">
      {forms.map(([form, says]) => (
        <a
          key={form}
          className="second-act"
          href={evidencePath(id, form)}
          aria-label={PEOPLE_WORDS.workOf(name, says)}
        >
          <span>{says}</span>
        </a>
      ))}
    </div>
  )
}
