import { type ReactNode, useState } from 'react'
import type { People, PersonAct, PersonTold } from '../../api/people.ts'
import { MACHINES, type Machine } from '../../core/register/machines.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { dayWords, FAR } from './days.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'

const CHOICES = MACHINES.map((id) => ({ id, name: PEOPLE_WORDS.machines[id] }))

/** What somebody was shown, by whom and until when; and one more. */
export function SignOffs({
  person,
  units,
  act,
}: Readonly<{
  person: PersonTold
  units: People['units']
  act: (act: PersonAct) => Promise<void>
}>): ReactNode {
  const words = PEOPLE_WORDS.signOff
  const [machine, setMachine] = useState<Machine>('light')
  const [unit, setUnit] = useState('')
  const [until, setUntil] = useState('')
  const some = units.filter(({ of }) => of === machine)
  return (
    <>
      <ul className="sign-offs">
        {person.signOffs.map(({ id, machine: of, unit: on, givenBy, givenOn, expiresOn }) => {
          const what = PEOPLE_WORDS.shown(PEOPLE_WORDS.machines[of], on?.name ?? null)
          const by = givenBy === null ? '' : `, ${PEOPLE_WORDS.by(givenBy)}`
          const end = expiresOn === null ? '' : `, ${PEOPLE_WORDS.until(dayWords(expiresOn))}`
          return (
            <li key={id}>
              <span>{`${what}: ${dayWords(givenOn)}${by}${end}`}</span>
              <SecondAct onPress={() => void act({ kind: 'withdraw', signOff: id })}>
                {words.withdraw(what)}
              </SecondAct>
            </li>
          )
        })}
      </ul>
      <p className="sentence">
        {`${words.what} `}
        <Blank
          label={words.what}
          value={machine}
          choices={CHOICES}
          onChoice={(id) => {
            setMachine(id as Machine)
            setUnit('')
          }}
        />
        {some.length > 0 && (
          <>
            {` ${words.unit} `}
            <Blank
              label={words.unit}
              value={unit}
              choices={some}
              open={words.allUnits}
              onChoice={setUnit}
            />
          </>
        )}
        .
      </p>
      <DayEntry label={words.until} value={until} latest={FAR} onEntry={setUntil} />
      <Button
        onPress={() =>
          void act({
            kind: 'sign off',
            machine,
            unit: some.some(({ id }) => id === unit) ? unit : null,
            expiresOn: until === '' ? null : until,
          })
        }
      >
        {words.act}
      </Button>
      <p className="small">{words.caution}</p>
    </>
  )
}
