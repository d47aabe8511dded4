import { type ReactNode, useId } from 'react'
import '../tests/entry.css'

/** A password to write; nobody reads along. */
export function PasswordEntry({
  label,
  value,
  isNew = false,
  onEntry,
}: Readonly<{
  label: string
  value: string
  isNew?: boolean
  onEntry: (value: string) => void
}>): ReactNode {
  const id = useId()
  return (
    <div className="entry">
      <label htmlFor={id}>{label}</label>
      <span className="entry-field">
        <input
          id={id}
          type="password"
          value={value}
          maxLength={200}
          autoComplete={isNew ? 'new-password' : 'current-password'}
          onChange={(event) => onEntry(event.target.value)}
        />
      </span>
    </div>
  )
}
