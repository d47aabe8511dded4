import { type ReactNode, useId, useState } from 'react'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { Entry } from './Entry.tsx'
import { READ_WORDS } from './read/readWords.ts'
import { WEDGE_KEYS, type WedgeDraft } from './wedgeDraft.ts'

export type OtherWedgeProps = Readonly<{
  draft: WedgeDraft
  wrong: Readonly<Partial<Record<keyof WedgeDraft, string | undefined>>>
  onDraft: (changed: Partial<WedgeDraft>) => void
}>

/** Steps of another wedge, for who has no usual one. */
export function OtherWedge({ draft, wrong, onDraft }: OtherWedgeProps): ReactNode {
  const [isOpen, setOpen] = useState(() => WEDGE_KEYS.some((key) => draft[key] !== ''))
  const id = useId()
  return (
    <div className="unfolding">
      <button
        type="button"
        className="word-link"
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setOpen(!isOpen)}
      >
        {READ_WORDS.otherWedge}
      </button>
      <div id={id} className="unfolded" hidden={!isOpen}>
        <p className="small">{READ_WORDS.usualWedge}</p>
        <div className="entries">
          {WEDGE_KEYS.map((key) => (
            <Entry
              key={key}
              label={READ_WORDS[key]}
              value={draft[key]}
              figures={key === 'steps' ? 'whole' : 'decimal'}
              example={String(USUAL_WEDGE[key])}
              wrong={wrong[key] ?? null}
              onEntry={(written) => onDraft({ [key]: written })}
            />
          ))}
        </div>
      </div>
    </div>
  )
}
