import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { People, PersonTold } from '../../api/people.ts'
import { Standing } from '../frame/Standing.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import '../tests/entry.css'
import { useAsked } from '../useAsked.ts'
import { Cards } from './Cards.tsx'
import { ClassList } from './ClassList.tsx'
import { ClassShown } from './ClassShown.tsx'
import { EndOfTerm } from './EndOfTerm.tsx'
import { Gone } from './Gone.tsx'
import { useMe } from './me.tsx'
import { NewPerson } from './NewPerson.tsx'
import './people.css'
import { Person } from './Person.tsx'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { ShownFirst } from './ShownFirst.tsx'

const PEOPLE = { path: PATHS.people }
const ACTS = ['fresh', 'list', 'cards', 'classShown', 'first', 'term'] as const
/** So many one finds at a glance. */
const MANY = 12

/** Everybody of the shop: role, class, what each was shown and until when. */
export function PeoplePage(): ReactNode {
  const [asked, askAgain] = useAsked<People>(PEOPLE)
  const [since, setSince] = useState<People | null>(null)
  const [open, setOpen] = useState<(typeof ACTS)[number] | null>(null)
  const [find, setFind] = useState('')
  const me = useMe()
  const people = since ?? asked.answer
  const changed = (answer: People): void => {
    setSince(answer)
    me.askAgain()
  }
  const again = (): void => {
    setSince(null)
    askAgain()
  }
  if (people === null) {
    return (
      <div className="people">
        <h1>{PEOPLE_WORDS.title}</h1>
        <Standing asked={asked} working={PEOPLE_WORDS.fetching} onAgain={askAgain} />
      </div>
    )
  }
  const groups = groupsOf({ ...people, people: called(people.people, find) })
  return (
    <div className="people">
      <h1>{PEOPLE_WORDS.title}</h1>
      <Standing asked={asked} working={PEOPLE_WORDS.fetching} onAgain={askAgain} />
      <p className="people-lead">{people.isOpen ? PEOPLE_WORDS.open : PEOPLE_WORDS.closed}</p>
      <p className="small">{PEOPLE_WORDS.may}</p>
      <div className="entry-acts">
        {ACTS.map((which) => (
          <SecondAct
            key={which}
            expanded={open === which}
            onPress={() => setOpen(open === which ? null : which)}
          >
            {PEOPLE_WORDS[which].open}
          </SecondAct>
        ))}
      </div>
      {open === 'fresh' && <NewPerson classes={classesOf(people)} onPeople={changed} />}
      {open === 'list' && <ClassList onDone={again} />}
      {open === 'cards' && <Cards people={people} onDone={again} />}
      {open === 'classShown' && <ClassShown classes={classesOf(people)} onPeople={changed} />}
      {open === 'first' && <ShownFirst people={people} onPeople={changed} />}
      {open === 'term' && (
        <EndOfTerm classes={classesOf(people)} people={people} onPeople={changed} />
      )}
      {people.people.length === 0 && <p>{PEOPLE_WORDS.none}</p>}
      {people.people.length > MANY && (
        <Entry label={PEOPLE_WORDS.find} value={find} longest={80} onEntry={setFind} />
      )}
      {people.people.length > 0 && groups.length === 0 && <p>{PEOPLE_WORDS.noneSo}</p>}
      {groups.map(({ name, members }) => (
        <section key={name}>
          <h2>{name}</h2>
          <ul className="people-list">
            {members.map((person) => (
              <li key={person.id}>
                <Person person={person} people={people} onPeople={changed} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      <Gone people={people} onPeople={changed} />
    </div>
  )
}

export function classesOf({ people }: People): readonly string[] {
  return [...new Set(people.flatMap(({ className }) => className ?? []))].sort()
}

/** Those whose name or class has these letters in it. */
function called(people: readonly PersonTold[], find: string): People['people'] {
  const wanted = find.trim().toLowerCase()
  return people.filter(({ name, className }) =>
    `${name} ${className ?? ''}`.toLowerCase().includes(wanted),
  )
}

type Group = Readonly<{ name: string; members: readonly PersonTold[] }>

/** Those who keep the room first, then class by class. */
function groupsOf(all: People): readonly Group[] {
  const keeps = ({ role }: PersonTold): boolean => role === 'lead' || role === 'technician'
  const rest = all.people.filter((person) => !keeps(person))
  const groups: Group[] = [
    { name: 'Keep the room', members: all.people.filter(keeps) },
    ...classesOf(all).map((name) => ({
      name,
      members: rest.filter(({ className }) => className === name),
    })),
    { name: 'Print here', members: rest.filter(({ className }) => className === null) },
  ]
  return groups.filter(({ members }) => members.length > 0)
}
