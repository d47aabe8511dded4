import { type ReactNode, useId } from 'react'
import './entry.css'

/** A day to choose, with the browser's own calendar. */
export function DayEntry({
  label,
  value,
  latest,
  onEntry,
}: Readonly<{
  label: string
  value: string
  latest: string
  onEntry: (day: string) => void
}>): ReactNode {
  const id = useId()
  return (
    <div className="entry entry-day">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="date"
        value={value}
        max={latest}
        onChange={(event) => onEntry(event.target.value)}
      />
    </div>
  )
}
