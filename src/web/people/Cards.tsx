import { type ReactNode, useEffect, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Cards as Made, People } from '../../api/people.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { Wrong } from './Wrong.tsx'

/** Cards to sign in with, for a class, for all, or for one. */
export function Cards({
  people: { people },
  onDone,
}: Readonly<{ people: People; onDone: () => void }>): ReactNode {
  const words = PEOPLE_WORDS.cards
  const classes = [...new Set(people.flatMap(({ className }) => className ?? []))].sort()
  const [whom, setWhom] = useState('')
  const [made, setMade] = useState<Made | null>(null)
  const [isNone, setNone] = useState(false)
  const sending = useSending<Made>()
  const meant = people.filter(({ id, role, className }) => {
    if (whom === '') return role === 'printer' || role === 'guest'
    return whom === `class ${className}` || whom === id
  })
  const make = async (): Promise<void> => {
    setNone(meant.length === 0)
    if (meant.length === 0) return
    const body = { people: meant.map(({ id }) => id) }
    const answer = await sending.send({ path: PATHS.cards, method: 'POST', body })
    setMade(answer)
    if (answer !== null) onDone()
  }
  const sheet = useSheet(made)
  return (
    <div className="unfolded">
      <p>{words.lead}</p>
      <p className="sentence">
        {`${words.forWhom} `}
        <Blank
          label={words.forWhom}
          value={whom}
          choices={[
            ...classes.map((name) => ({ id: `class ${name}`, name })),
            ...people.map(({ id, name }) => ({ id, name })),
          ]}
          open={words.everybody}
          onChoice={setWhom}
        />
        .
      </p>
      <Wrong says={sending.message ?? (isNone ? words.none : null)} />
      <Button busy={sending.isBusy} onPress={() => void make()}>
        {words.act}
      </Button>
      {made !== null && (
        <ul className="cards" aria-live="polite">
          {made.cards.map(({ id, name, code }) => (
            <li key={id}>
              <strong>{code}</strong> {name}
            </li>
          ))}
        </ul>
      )}
      {sheet !== null && (
        <a className="second-act" href={sheet} target="_blank" rel="noreferrer">
          <span>{words.print}</span>
        </a>
      )}
    </div>
  )
}

/** The sheet as a file of this page alone: no address leads to it. */
function useSheet(made: Made | null): string | null {
  const [address, setAddress] = useState<string | null>(null)
  useEffect(() => {
    if (made === null) return undefined
    const bytes = Uint8Array.from(atob(made.pdf), (sign) => sign.charCodeAt(0))
    const url = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }))
    setAddress(url)
    return () => URL.revokeObjectURL(url)
  }, [made])
  return address
}
