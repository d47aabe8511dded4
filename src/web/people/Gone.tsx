import { type ReactNode, useState } from 'react'
import { personActsPath } from '../../api/paths.ts'
import type { People, PersonAct } from '../../api/people.ts'
import { SecondAct } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { useSending } from '../tests/useSending.ts'
import { FAR } from './days.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { Work } from './Work.tsx'
import { Wrong } from './Wrong.tsx'

type Knowing = Readonly<{ people: People; onPeople: (people: People) => void }>

/** Who left, with the day after which their names are taken out. */
export function Gone({ people, onPeople }: Knowing): ReactNode {
  const words = PEOPLE_WORDS.leaves
  const [open, setOpen] = useState<string | null>(null)
  if (people.gone.length === 0) return null
  return (
    <details className="people-gone">
      <summary>{words.gone}</summary>
      <ul>
        {people.gone.map((person) => (
          <li key={person.id}>
            {words.line(person.name, person.leftOn, person.deleteAfter)}
            <SecondAct
              expanded={open === person.id}
              onPress={() => setOpen(open === person.id ? null : person.id)}
            >
              {words.again(person.name)}
            </SecondAct>
            {open === person.id && <Settling person={person} onPeople={onPeople} />}
          </li>
        ))}
      </ul>
    </details>
  )
}

function Settling({
  person: { id, name, deleteAfter },
  onPeople,
}: Readonly<{ person: People['gone'][number]; onPeople: Knowing['onPeople'] }>): ReactNode {
  const words = PEOPLE_WORDS.leaves
  const [after, setAfter] = useState(deleteAfter ?? '')
  const sending = useSending<People>()
  const act = async (body: PersonAct): Promise<void> => {
    const answer = await sending.send({ path: personActsPath(id), method: 'POST', body })
    if (answer !== null) onPeople(answer)
  }
  return (
    <div className="unfolded">
      <Work id={id} name={name} />
      <DayEntry label={words.after} value={after} latest={FAR} onEntry={setAfter} />
      <Wrong says={sending.message} />
      <div className="entry-acts">
        <SecondAct
          onPress={() => void act({ kind: 'leaves', deleteAfter: after === '' ? null : after })}
        >
          {words.keepSo}
        </SecondAct>
        <SecondAct onPress={() => void act({ kind: 'is back' })}>{words.back(name)}</SecondAct>
      </div>
    </div>
  )
}
