import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { People } from '../../api/people.ts'
import { Button } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { useSending } from '../tests/useSending.ts'
import { ClassChoice } from './ClassChoice.tsx'
import { FAR } from './days.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { Work } from './Work.tsx'
import { Wrong } from './Wrong.tsx'

/** A class leaves, and what is known of its people goes after a day. */
export function EndOfTerm({
  classes,
  people: { people },
  onPeople,
}: Readonly<{
  classes: readonly string[]
  people: People
  onPeople: (people: People) => void
}>): ReactNode {
  const words = PEOPLE_WORDS.term
  const [className, setClass] = useState('')
  const [after, setAfter] = useState('')
  const [isAsked, setAsked] = useState(false)
  const [said, setSaid] = useState<string | null>(null)
  const sending = useSending<People>()
  const members = people.filter(
    (person) =>
      person.className === className && (person.role === 'printer' || person.role === 'guest'),
  )
  const end = async (): Promise<void> => {
    setAsked(true)
    if (className === '') return
    const body = { className, deleteAfter: after === '' ? null : after }
    const answer = await sending.send({ path: PATHS.endOfTerm, method: 'POST', body })
    if (answer === null) return
    setAsked(false)
    setSaid(words.done(className, members.length))
    setClass('')
    onPeople(answer)
  }
  const wrong = sending.message ?? (isAsked && className === '' ? words.missing : null)
  return (
    <div className="unfolded">
      <p>{words.lead}</p>
      <ClassChoice classes={classes} chosen={className} onChoice={setClass} />
      {members.length > 0 && (
        <>
          <p>{words.first}</p>
          <ul className="term-work">
            {members.map(({ id, name }) => (
              <li key={id}>
                {name} <Work id={id} name={name} />
              </li>
            ))}
          </ul>
        </>
      )}
      <DayEntry label={words.deleteAfter} value={after} latest={FAR} onEntry={setAfter} />
      <Wrong says={wrong} />
      <p className="said" role="status">
        {said}
      </p>
      <Button busy={sending.isBusy} onPress={() => void end()}>
        {words.act}
      </Button>
    </div>
  )
}
