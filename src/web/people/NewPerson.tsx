import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { NewPerson as Asked, People } from '../../api/people.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { Wrong } from './Wrong.tsx'

const ROLES = (['printer', 'guest', 'technician', 'lead'] as const).map((id) => ({
  id,
  name: PEOPLE_WORDS.roles[id],
}))

/** Somebody who comes into the shop. */
export function NewPerson({
  classes,
  onPeople,
}: Readonly<{ classes: readonly string[]; onPeople: (people: People) => void }>): ReactNode {
  const words = PEOPLE_WORDS.fresh
  const [name, setName] = useState('')
  const [role, setRole] = useState<string>('printer')
  const [className, setClass] = useState('')
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<People>()
  const add = async (): Promise<void> => {
    setAsked(true)
    if (name.trim() === '') return
    const body: Asked = {
      name: name.trim(),
      role: role as Asked['role'],
      ...(className.trim() === '' ? {} : { className: className.trim() }),
    }
    const answer = await sending.send({ path: PATHS.people, method: 'POST', body })
    if (answer === null) return
    setName('')
    setRole('printer')
    setAsked(false)
    onPeople(answer)
  }
  return (
    <div className="unfolded">
      <div className="entries">
        <Entry
          label={PEOPLE_WORDS.about.name}
          value={name}
          longest={80}
          wrong={isAsked && name.trim() === '' ? words.missing : null}
          onEntry={setName}
        />
        <Entry
          label={PEOPLE_WORDS.about.className}
          value={className}
          longest={80}
          {...(classes[0] === undefined ? {} : { example: classes[0] })}
          onEntry={setClass}
        />
      </div>
      <p className="sentence">
        {`${PEOPLE_WORDS.about.role}: `}
        <Blank label={PEOPLE_WORDS.about.role} value={role} choices={ROLES} onChoice={setRole} />
      </p>
      <Wrong says={sending.message} />
      <Button busy={sending.isBusy} onPress={() => void add()}>
        {words.act}
      </Button>
    </div>
  )
}
