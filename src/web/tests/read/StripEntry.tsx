import type { ReactNode } from 'react'
import type { Tests } from '../../../api/tests.ts'
import { LIGHT_WORDS } from '../../words.ts'
import { Entry } from '../Entry.tsx'
import { type BandDraft, NO_GRADE } from './draft.ts'
import { GradeBy } from './GradeBy.tsx'
import { Grades, type GradesProps } from './Grades.tsx'
import { READ_WORDS } from './readWords.ts'
import type { PartProps } from './WedgeEntry.tsx'

const MOST_BANDS = 20

/** Every band of a strip with its dose and how it came out. */
export function StripEntry({
  draft,
  wrong,
  onDraft,
  pictures,
  from,
  countsIn,
}: PartProps &
  Readonly<{
    pictures: GradesProps['pictures']
    /** Where the bands come from, when they were planned here. */
    from: string | null
    countsIn: Tests['countsIn']
  }>): ReactNode {
  const { bands } = draft
  const change = (at: number, changed: Partial<BandDraft>): void =>
    onDraft({ bands: bands.with(at, { ...NO_GRADE, dose: '', ...bands[at], ...changed }) })
  return (
    <>
      <p className="how">{READ_WORDS.stripHow}</p>
      {from !== null && <p className="small">{READ_WORDS.stripFrom(from)}</p>}
      <GradeBy by={draft.by} onBy={(by) => onDraft({ by })} />
      <ol className="strip-bands">
        {bands.map((band, at) => (
          <li key={at} className="strip-band">
            <Entry
              label={READ_WORDS.bandDose(at + 1)}
              value={band.dose}
              figures="decimal"
              unit={LIGHT_WORDS.short[countsIn]}
              wrong={wrong[`bands.${at}.doseLu`] ?? null}
              onEntry={(dose) => change(at, { dose })}
            />
            <Grades
              label={READ_WORDS.bandGrade(at + 1, band.dose)}
              told={band}
              by={draft.by}
              pictures={pictures}
              wrong={wrong[`bands.${at}.is`] ?? null}
              onTold={({ grade, ground, marks }) => change(at, { grade, ground, marks })}
            />
          </li>
        ))}
      </ol>
      {wrong['bands'] !== undefined && (
        <p role="alert" className="entry-wrong">
          {wrong['bands']}
        </p>
      )}
      <div className="entry-acts">
        {bands.length < MOST_BANDS && (
          <button
            type="button"
            className="word-link"
            onClick={() => onDraft({ bands: [...bands, { ...NO_GRADE, dose: '' }] })}
          >
            {READ_WORDS.moreBands}
          </button>
        )}
        {bands.length > 2 && (
          <button
            type="button"
            className="word-link"
            onClick={() => onDraft({ bands: bands.slice(0, -1) })}
          >
            {READ_WORDS.fewerBands}
          </button>
        )}
      </div>
    </>
  )
}
