import { type ReactNode, useId } from 'react'
import './entry.css'

export type EntryProps = Readonly<{
  label: string
  value: string
  onEntry: (value: string) => void
  /** What is counted, beside the field. */
  unit?: string
  /** Figures come up on a phone; without it letters. */
  figures?: 'whole' | 'decimal' | 'clock'
  /** As large as a wet finger wants it. */
  large?: boolean
  longest?: number
  example?: string
  /** What is wrong with it, in one sentence. */
  wrong?: string | null
  /** The sentence that says why stands elsewhere. */
  isWrong?: boolean
  /** The label is only spoken, for a field in a table. */
  quiet?: boolean
}>

const KEYPADS = { whole: 'numeric', decimal: 'decimal', clock: 'text' } as const

/** A field with its word over it, and what is wrong with it under it. */
export function Entry(props: EntryProps): ReactNode {
  const { label, value, unit, figures, large = false, wrong = null, quiet = false } = props
  const id = useId()
  const why = `${id}why`
  return (
    <div className={large ? 'entry entry-large' : 'entry'}>
      <label htmlFor={id} className={quiet ? 'unseen' : undefined}>
        {label}
      </label>
      <span className="entry-field">
        <input
          id={id}
          className={figures === undefined ? undefined : 'entry-figures'}
          value={value}
          inputMode={figures === undefined ? 'text' : KEYPADS[figures]}
          maxLength={props.longest ?? (figures === undefined ? 200 : 9)}
          placeholder={props.example}
          autoComplete="off"
          aria-invalid={wrong !== null || props.isWrong === true}
          aria-describedby={wrong === null ? undefined : why}
          onChange={(event) => props.onEntry(event.target.value)}
        />
        {unit !== undefined && <span className="entry-unit">{unit}</span>}
      </span>
      {wrong !== null && (
        <p className="entry-wrong" id={why}>
          {wrong}
        </p>
      )}
    </div>
  )
}
