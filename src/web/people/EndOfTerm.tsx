import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { People } from '../../api/people.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { useSending } from '../tests/useSending.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'

const FAR = '2100-12-31'

/** A class leaves, and what is known of its people goes after a day. */
export function EndOfTerm({
  classes,
  onPeople,
}: Readonly<{ classes: readonly string[]; onPeople: (people: People) => void }>): ReactNode {
  const words = PEOPLE_WORDS.term
  const [className, setClass] = useState('')
  const [after, setAfter] = useState('')
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<People>()
  const end = async (): Promise<void> => {
    setAsked(true)
    if (className === '') return
    const body = { className, deleteAfter: after === '' ? null : after }
    const answer = await sending.send({ path: PATHS.endOfTerm, method: 'POST', body })
    if (answer === null) return
    setAsked(false)
    setClass('')
    onPeople(answer)
  }
  const wrong = sending.message ?? (isAsked && className === '' ? words.missing : null)
  return (
    <div className="unfolded">
      <p>{words.lead}</p>
      <p className="sentence">
        {`${words.className}: `}
        <Blank
          label={words.className}
          value={className}
          choices={classes.map((name) => ({ id: name, name }))}
          open={words.choose}
          onChoice={setClass}
        />
      </p>
      <DayEntry label={words.deleteAfter} value={after} latest={FAR} onEntry={setAfter} />
      {wrong !== null && (
        <p role="alert" className="entry-wrong">
          {wrong}
        </p>
      )}
      <Button busy={sending.isBusy} onPress={() => void end()}>
        {words.act}
      </Button>
    </div>
  )
}
