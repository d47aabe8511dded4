import type { ReactNode } from 'react'
import { MACHINES, type Machine } from '../../core/register/machines.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'

/** Machines, each to be ticked. */
export function MachineChoice({
  label,
  chosen,
  onChoice,
}: Readonly<{
  label: string
  chosen: readonly Machine[]
  onChoice: (chosen: readonly Machine[]) => void
}>): ReactNode {
  return (
    <fieldset className="machine-choice">
      <legend>{label}</legend>
      {MACHINES.map((machine) => (
        <label key={machine}>
          <input
            type="checkbox"
            checked={chosen.includes(machine)}
            onChange={({ target }) =>
              onChoice(
                MACHINES.filter((each) =>
                  each === machine ? target.checked : chosen.includes(each),
                ),
              )
            }
          />
          {PEOPLE_WORDS.machines[machine]}
        </label>
      ))}
    </fieldset>
  )
}
