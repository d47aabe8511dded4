import { type ReactNode, useId, useState } from 'react'
import { USUAL_WEDGE } from '../../../core/calibration/wedge.ts'
import { Entry } from '../Entry.tsx'
import { numberWritten, valueOf } from '../written.ts'
import { type Draft, stepsOf, type Wrong } from './draft.ts'
import { READ_WORDS } from './readWords.ts'
import { WedgePicture } from './WedgePicture.tsx'

export type PartProps = Readonly<{
  draft: Draft
  wrong: Wrong
  onDraft: (changed: Partial<Draft>) => void
}>

/** Two numbers of a wedge, by tapping on it or as figures. */
export function WedgeEntry({ draft, wrong, onDraft }: PartProps): ReactNode {
  const steps = stepsOf(draft)
  const stepOf = (text: string): number | null =>
    valueOf(numberWritten(text, { low: 0, high: steps + 1, whole: true }))
  const [solid, clear] = [stepOf(draft.lastSolid), stepOf(draft.firstClear)]
  return (
    <>
      <p className="how">{READ_WORDS.wedgeHow}</p>
      <WedgePicture
        marks={{ steps, solid, clear }}
        onMarks={(told) =>
          onDraft({
            lastSolid: String(told.solid),
            firstClear: told.clear === null ? '' : String(told.clear),
          })
        }
      />
      <p aria-live="polite" className="said">
        {solid !== null &&
          (solid === 0 ? READ_WORDS.wedgeNoneSolid : READ_WORDS.wedgeSays(solid, clear))}
      </p>
      <div className="entries">
        <Entry
          label={READ_WORDS.lastSolid}
          value={draft.lastSolid}
          figures="whole"
          large
          wrong={wrong['lastSolidStep'] ?? null}
          onEntry={(lastSolid) => onDraft({ lastSolid })}
        />
        <Entry
          label={READ_WORDS.firstClear}
          value={draft.firstClear}
          figures="whole"
          large
          wrong={wrong['firstClearStep'] ?? null}
          onEntry={(firstClear) => onDraft({ firstClear })}
        />
      </div>
      <p className="small">{READ_WORDS.wedgeMore}</p>
      <OtherWedge draft={draft} wrong={wrong} onDraft={onDraft} />
    </>
  )
}

/** Steps of another wedge, for who has no usual one. */
function OtherWedge({ draft, wrong, onDraft }: PartProps): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const id = useId()
  const fields = ['steps', 'firstDensity', 'increment'] as const
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
          {fields.map((field) => (
            <Entry
              key={field}
              label={READ_WORDS[field]}
              value={draft[field]}
              figures={field === 'steps' ? 'whole' : 'decimal'}
              example={String(USUAL_WEDGE[field])}
              wrong={wrong[field] ?? wrong[`wedge.${field}`] ?? null}
              onEntry={(written) => onDraft({ [field]: written })}
            />
          ))}
        </div>
      </div>
    </div>
  )
}
