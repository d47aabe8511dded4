import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { ClassSignOff, People } from '../../api/people.ts'
import type { Machine } from '../../core/register/machines.ts'
import { Button } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { useSending } from '../tests/useSending.ts'
import { ClassChoice } from './ClassChoice.tsx'
import { FAR } from './days.ts'
import { MachineChoice } from './MachineChoice.tsx'
import { PEOPLE_WORDS } from './peopleWords.ts'
import { Wrong } from './Wrong.tsx'

/** An induction for a whole class. */
export function ClassShown({
  classes,
  onPeople,
}: Readonly<{ classes: readonly string[]; onPeople: (people: People) => void }>): ReactNode {
  const words = PEOPLE_WORDS.classShown
  const [className, setClass] = useState('')
  const [machines, setMachines] = useState<readonly Machine[]>([])
  const [until, setUntil] = useState('')
  const [isAsked, setAsked] = useState(false)
  const [done, setDone] = useState<string | null>(null)
  const sending = useSending<People>()
  const lacks = className === '' || machines.length === 0
  const send = async (): Promise<void> => {
    setAsked(true)
    setDone(null)
    if (lacks) return
    const expiresOn = until === '' ? null : until
    const body: ClassSignOff = { className, machines: [...machines], expiresOn }
    const answer = await sending.send({ path: PATHS.classSignOff, method: 'POST', body })
    if (answer === null) return
    setAsked(false)
    setMachines([])
    setDone(words.done(className))
    onPeople(answer)
  }
  const wrong = sending.message ?? (isAsked && lacks ? words.missing : null)
  return (
    <div className="unfolded">
      <p>{words.lead}</p>
      <ClassChoice classes={classes} chosen={className} onChoice={setClass} />
      <MachineChoice label={words.what} chosen={machines} onChoice={setMachines} />
      <DayEntry label={PEOPLE_WORDS.signOff.until} value={until} latest={FAR} onEntry={setUntil} />
      <Wrong says={wrong} />
      <p className="said" role="status">
        {done}
      </p>
      <Button busy={sending.isBusy} onPress={() => void send()}>
        {words.act}
      </Button>
      <p className="small">{PEOPLE_WORDS.signOff.caution}</p>
    </div>
  )
}
