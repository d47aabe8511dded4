import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { People } from '../../api/people.ts'
import { Button } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { MachineChoice } from './MachineChoice.tsx'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { Wrong } from './Wrong.tsx'

/** What somebody has to be shown before they use it here. */
export function ShownFirst({
  people,
  onPeople,
}: Readonly<{ people: People; onPeople: (people: People) => void }>): ReactNode {
  const words = PEOPLE_WORDS.first
  const [machines, setMachines] = useState(people.shownFirst)
  const [isDone, setDone] = useState(false)
  const sending = useSending<People>()
  const send = async (): Promise<void> => {
    const answer = await sending.send({
      path: PATHS.shownFirst,
      method: 'POST',
      body: { machines },
    })
    if (answer === null) return
    setDone(true)
    onPeople(answer)
  }
  return (
    <div className="unfolded">
      <p>{words.lead}</p>
      <MachineChoice
        label={words.open}
        chosen={machines}
        onChoice={(chosen) => {
          setDone(false)
          setMachines([...chosen])
        }}
      />
      <Wrong says={sending.message} />
      <p className="said" role="status">
        {isDone && words.done}
      </p>
      <Button busy={sending.isBusy} onPress={() => void send()}>
        {words.act}
      </Button>
    </div>
  )
}
