import { type ReactNode, useId, useState } from 'react'
import { TESTS_WORDS } from '../testsWords.ts'

/** The figures of a picture as a table, behind a word. */
export function AsTable({
  title,
  columns,
  rows,
}: Readonly<{
  title: string
  columns: readonly string[]
  rows: readonly Readonly<{ key: string; cells: readonly string[] }>[]
}>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const id = useId()
  return (
    <div className="as-table">
      <button
        type="button"
        className="word-link"
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setOpen(!isOpen)}
      >
        {TESTS_WORDS.table}
      </button>
      <div
        id={id}
        className="as-table-rows"
        hidden={!isOpen}
        role="region"
        aria-label={title}
        tabIndex={0}
      >
        <table>
          <caption className="unseen">{title}</caption>
          <thead>
            <tr>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ key, cells }) => (
              <tr key={key}>
                {cells.map((cell, at) =>
                  at === 0 ? (
                    <th key={columns[at]} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={columns[at]}>{cell}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  )
}
