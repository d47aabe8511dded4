import { type ReactNode, useState } from 'react'
import { PATHS, personActsPath } from '../../api/paths.ts'
import type { Me, People, PersonAct, PersonTold } from '../../api/people.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { dayWords, FAR } from './days.ts'
import { PasswordEntry } from './PasswordEntry.tsx'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { SignOffs } from './SignOffs.tsx'
import { Work } from './Work.tsx'
import { Wrong } from './Wrong.tsx'

const LEAST_LETTERS = 10
const ROLES = (['lead', 'technician', 'printer', 'guest'] as const).map((id) => ({
  id,
  name: PEOPLE_WORDS.roles[id],
}))

type Knowing = Readonly<{
  person: PersonTold
  people: People
  onPeople: (people: People) => void
}>

/** Somebody as one line, and what can be settled about them. */
export function Person({ person, people, onPeople }: Knowing): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const { name, role, signOffs, screens } = person
  return (
    <div className="person">
      <p className="person-name">
        <strong>{name}</strong>, {PEOPLE_WORDS.roles[role]}
        {screens > 0 && `, ${PEOPLE_WORDS.screens(screens)}`}
      </p>
      {signOffs.length === 0 && <p className="soft">{PEOPLE_WORDS.noSignOff}</p>}
      {shownByEnd(signOffs).map((line) => (
        <p key={line} className="soft">
          {line}
        </p>
      ))}
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {PEOPLE_WORDS.change(name)}
      </SecondAct>
      {isOpen && <Settling person={person} people={people} onPeople={onPeople} />}
    </div>
  )
}

/** What somebody was shown, a line for each day on which it ends. */
function shownByEnd(signOffs: PersonTold['signOffs']): readonly string[] {
  const ends = [...new Set(signOffs.map(({ expiresOn }) => expiresOn))].sort((a, b) =>
    (a ?? FAR).localeCompare(b ?? FAR),
  )
  return ends.map((end) => {
    const own = signOffs.filter(({ expiresOn }) => expiresOn === end)
    const what = own
      .map(({ machine, unit }) =>
        PEOPLE_WORDS.shown(PEOPLE_WORDS.machines[machine], unit?.name ?? null),
      )
      .join(', ')
    if (end === null) return what
    const isOver = own.some((each) => each.isOver)
    return `${what}: ${isOver ? PEOPLE_WORDS.over(dayWords(end)) : PEOPLE_WORDS.until(dayWords(end))}`
  })
}

function Settling({ person, people, onPeople }: Knowing): ReactNode {
  const words = PEOPLE_WORDS
  const [name, setName] = useState(person.name)
  const [role, setRole] = useState<string>(person.role)
  const [className, setClass] = useState(person.className ?? '')
  const [password, setPassword] = useState('')
  const [isShort, setShort] = useState(false)
  const [after, setAfter] = useState('')
  const sending = useSending<People>()
  const signing = useSending<Me>()
  const tell = (body: PersonAct): Promise<People | null> =>
    sending.send({ path: personActsPath(person.id), method: 'POST', body })
  const act = async (body: PersonAct): Promise<void> => {
    const answer = await tell(body)
    if (answer !== null) onPeople(answer)
  }
  const setWord = async (): Promise<void> => {
    setShort(password.length < LEAST_LETTERS)
    if (password.length < LEAST_LETTERS) return
    const answer = await tell({ kind: 'password', password })
    // who closes the shop goes on working in it
    if (answer !== null && people.isOpen && !answer.isOpen) {
      await signing.send({
        path: PATHS.signIn,
        method: 'POST',
        body: { name: person.name, password },
      })
    }
    setPassword('')
    if (answer !== null) onPeople(answer)
  }
  const keepsRoom = person.role === 'lead' || person.role === 'technician'
  return (
    <div className="unfolded">
      <Wrong says={sending.message} />
      <SignOffs person={person} units={people.units} act={act} />
      <div className="entries">
        <Entry label={words.about.name} value={name} longest={80} onEntry={setName} />
        <Entry label={words.about.className} value={className} longest={80} onEntry={setClass} />
      </div>
      <p className="sentence">
        {`${words.about.role}: `}
        <Blank label={words.about.role} value={role} choices={ROLES} onChoice={setRole} />
      </p>
      <SecondAct
        onPress={() =>
          void act({
            kind: 'about',
            ...(name.trim() === '' ? {} : { name: name.trim() }),
            role: role as PersonTold['role'],
            className: className.trim() === '' ? null : className.trim(),
          })
        }
      >
        {words.about.keep}
      </SecondAct>
      {keepsRoom && (
        <form
          className="unfolded"
          onSubmit={(event) => {
            event.preventDefault()
            void setWord()
          }}
        >
          <PasswordEntry label={words.password.word} value={password} isNew onEntry={setPassword} />
          <Wrong says={isShort ? words.password.short : null} />
          <Button kind="submit" busy={sending.isBusy}>
            {words.password.act}
          </Button>
          {person.hasPassword && (
            <>
              <SecondAct onPress={() => void act({ kind: 'password', password: null })}>
                {words.password.take}
              </SecondAct>
              {person.role === 'lead' && <p className="small">{words.password.takeAll}</p>}
            </>
          )}
        </form>
      )}
      <Work id={person.id} name={person.name} />
      <DayEntry label={words.leaves.after} value={after} latest={FAR} onEntry={setAfter} />
      <SecondAct
        onPress={() => void act({ kind: 'leaves', deleteAfter: after === '' ? null : after })}
      >
        {words.leaves.act}
      </SecondAct>
    </div>
  )
}
