import { type ReactNode, useState } from 'react'
import { GRADES } from '../../core/fabric/grades.ts'
import { MEDIA } from '../../core/film/media.ts'
import { fabricChoices } from '../fabricText.ts'
import { useUnits } from '../shop.tsx'
import { Blank, type BlankChoice, BlankEntry } from '../signs/Blank.tsx'
import { FIRST_WORDS } from '../words.ts'
import { type Entries, isWrongDose, type RememberedEntry } from './entries.ts'

const FABRICS: readonly BlankChoice[] = GRADES.map(({ name }) => ({ id: name, name }))
const MEDIA_CHOICES: readonly BlankChoice[] = MEDIA.map(({ name }) => ({ id: name, name }))

/** The words of a table as choices. */
function choicesOf(words: Readonly<Record<string, string>>): readonly BlankChoice[] {
  return Object.entries(words).map(([id, name]) => ({ id, name }))
}

const CHOICES = {
  countsIn: choicesOf(FIRST_WORDS.countsIn),
  colour: choicesOf(FIRST_WORDS.colour).map((choice) =>
    choice.id === 'dyed' ? { ...choice, about: FIRST_WORDS.dyed } : choice,
  ),
  coats: choicesOf(FIRST_WORDS.coats),
  emulsion: choicesOf(FIRST_WORDS.emulsion),
  outcome: choicesOf(FIRST_WORDS.outcome),
}

type Plain = 'countsIn' | 'fabric' | 'colour' | 'coats' | 'emulsion'

export type ParagraphProps = Readonly<{ entries: Entries; onChange: (entries: Entries) => void }>

/** Five facts in one paragraph; any blank may be left open. */
export function Paragraph({ entries, onChange }: ParagraphProps): ReactNode {
  const [another, setAnother] = useState(false)
  const units = useUnits()
  const blank = (of: Plain, choices: readonly BlankChoice[]): ReactNode => (
    <Blank
      label={FIRST_WORDS.labels[of]}
      value={entries[of]}
      choices={choices}
      open={FIRST_WORDS.open[of]}
      onChoice={(chosen) => onChange({ ...entries, [of]: chosen })}
    />
  )
  return (
    <>
      <p className="paragraph">
        <span className="clause">
          {FIRST_WORDS.lampCounts} {blank('countsIn', CHOICES.countsIn)}.
        </span>{' '}
        <span className="clause">
          {FIRST_WORDS.mostScreens} {blank('fabric', fabricChoices(FABRICS, units))}{' '}
          {FIRST_WORDS.in} {blank('colour', CHOICES.colour)}
        </span>{' '}
        <span className="clause">
          {FIRST_WORDS.coated} {blank('coats', CHOICES.coats)} {FIRST_WORDS.with}
        </span>{' '}
        <span className="clause">{blank('emulsion', CHOICES.emulsion)}.</span>{' '}
        <Remembered
          lead={FIRST_WORDS.lastTime}
          labels={{
            medium: FIRST_WORDS.labels.medium,
            dose: FIRST_WORDS.labels.dose,
            outcome: FIRST_WORDS.labels.outcome,
          }}
          entry={entries.lastTime}
          onChange={(lastTime) => onChange({ ...entries, lastTime })}
        />
      </p>
      {another ? (
        <p className="paragraph paragraph-more">
          <Remembered
            lead={FIRST_WORDS.anotherTime}
            labels={{
              medium: FIRST_WORDS.labels.anotherMedium,
              dose: FIRST_WORDS.labels.anotherDose,
              outcome: FIRST_WORDS.labels.anotherOutcome,
            }}
            entry={entries.another}
            onChange={(changed) => onChange({ ...entries, another: changed })}
          />
        </p>
      ) : (
        <p className="first-another">
          {FIRST_WORDS.another}{' '}
          <button type="button" className="word-link" onClick={() => setAnother(true)}>
            {FIRST_WORDS.addAnother}
          </button>
        </p>
      )}
    </>
  )
}

type RememberedProps = Readonly<{
  lead: string
  labels: Readonly<{ medium: string; dose: string; outcome: string }>
  entry: RememberedEntry
  onChange: (entry: RememberedEntry) => void
}>

function Remembered({ lead, labels, entry, onChange }: RememberedProps): ReactNode {
  return (
    <>
      <span className="clause">
        {lead}{' '}
        <Blank
          label={labels.medium}
          value={entry.medium}
          choices={MEDIA_CHOICES}
          open={FIRST_WORDS.open.medium}
          onChoice={(medium) => onChange({ ...entry, medium })}
        />{' '}
        {FIRST_WORDS.at}{' '}
        <BlankEntry
          label={labels.dose}
          value={entry.dose}
          open={FIRST_WORDS.open.dose}
          numeric
          longest={8}
          wrong={isWrongDose(entry.dose) ? FIRST_WORDS.wrongDose(entry.dose.trim()) : null}
          onEntry={(dose) => onChange({ ...entry, dose })}
        />
      </span>{' '}
      <span className="clause">
        {FIRST_WORDS.cameOut}{' '}
        <Blank
          label={labels.outcome}
          value={entry.outcome}
          choices={CHOICES.outcome}
          open={FIRST_WORDS.open.outcome}
          onChoice={(outcome) =>
            onChange({ ...entry, outcome: outcome as RememberedEntry['outcome'] })
          }
        />
        .
      </span>
    </>
  )
}
