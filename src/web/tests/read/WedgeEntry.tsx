import type { ReactNode } from 'react'
import { Entry } from '../Entry.tsx'
import { OtherWedge } from '../OtherWedge.tsx'
import { stepsOf, WEDGE_KEYS } from '../wedgeDraft.ts'
import { numberWritten, valueOf } from '../written.ts'
import type { Draft, Wrong } from './draft.ts'
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
      <OtherWedge
        draft={draft}
        wrong={Object.fromEntries(
          WEDGE_KEYS.map((key) => [key, wrong[key] ?? wrong[`wedge.${key}`]]),
        )}
        onDraft={onDraft}
      />
    </>
  )
}
