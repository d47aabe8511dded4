import { type ReactNode, useId } from 'react'
import './blank.css'

export type BlankChoice = Readonly<{
  id: string
  name: string
  about?: string | null
  not?: string | null
}>

export type BlankProps = Readonly<{
  /** What the blank is, for a screen reader. */
  label: string
  value: string
  choices: readonly BlankChoice[]
  onChoice: (id: string) => void
  /** What stands on the dotted line while the blank is open; then it can be left open. */
  open?: string
  groups?: readonly Readonly<{ name: string; choices: readonly BlankChoice[] }>[]
}>

/** A choice in a sentence: underlined, bold, with a triangle. */
export function Blank({ label, value, choices, onChoice, open, groups }: BlankProps): ReactNode {
  const all = groups === undefined ? choices : groups.flatMap((group) => group.choices)
  const chosen = all.find((choice) => choice.id === value)
  const isOpen = chosen === undefined
  return (
    <span className={isOpen ? 'blank blank-open' : 'blank'}>
      <span className="blank-word" aria-hidden="true">
        <span>{chosen?.name ?? open ?? label}</span>
        <Triangle />
      </span>
      <select
        className="blank-select"
        aria-label={label}
        value={isOpen ? '' : value}
        onChange={(event) => onChoice(event.target.value)}
      >
        {(open !== undefined || isOpen) && <option value="">{open ?? label}</option>}
        {groups === undefined
          ? choices.map((choice) => <Choice key={choice.id} choice={choice} />)
          : groups.map((group) => (
              <optgroup key={group.name} label={group.name}>
                {group.choices.map((choice) => (
                  <Choice key={choice.id} choice={choice} />
                ))}
              </optgroup>
            ))}
      </select>
    </span>
  )
}

function Choice({ choice }: Readonly<{ choice: BlankChoice }>): ReactNode {
  const { id, name, about, not } = choice
  const blocked = not !== undefined && not !== null
  const more = blocked ? not : about
  return (
    <option value={id} disabled={blocked}>
      {more === undefined || more === null ? name : `${name}, ${more}`}
    </option>
  )
}

function Triangle(): ReactNode {
  return (
    <svg className="blank-triangle" viewBox="0 0 12 10" width={12} height={10} aria-hidden="true">
      <path d="M.5.5h11L6 9.5z" />
    </svg>
  )
}

export type BlankEntryProps = Readonly<{
  label: string
  value: string
  onEntry: (value: string) => void
  /** What stands on the dotted line while nothing is written. */
  open: string
  /** Digits come up on a phone. */
  numeric?: boolean
  longest?: number
  /** What is wrong with it, in one sentence. */
  wrong?: string | null
}>

/** A word or number to write in a sentence. */
export function BlankEntry(props: BlankEntryProps): ReactNode {
  const id = useId()
  const { label, value, open, numeric = false, wrong = null } = props
  return (
    <span className={value === '' ? 'blank blank-open' : 'blank'}>
      <span className="blank-word" aria-hidden="true">
        {value === '' ? open : value}
      </span>
      <input
        className="blank-entry"
        aria-label={label}
        placeholder={open}
        value={value}
        inputMode={numeric ? 'decimal' : 'text'}
        maxLength={props.longest ?? 80}
        autoComplete="off"
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : id}
        onChange={(event) => props.onEntry(event.target.value)}
      />
      {wrong !== null && (
        <span className="blank-wrong" id={id}>
          {wrong}
        </span>
      )}
    </span>
  )
}
