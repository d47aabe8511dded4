import { type ReactNode, useId, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { ClassTold } from '../../api/people.ts'
import { wordsIn } from '../fileText.ts'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import '../tests/notes/notes.css'
import { useSending } from '../tests/useSending.ts'
import { PEOPLE_WORDS } from './peopleWords.ts'

const ROWS = 6
/** Bytes: more than the list of any school. */
const LONGEST = 900_000

/** A class from a table: tried first, brought in after a nod. */
export function ClassList({ onDone }: Readonly<{ onDone: () => void }>): ReactNode {
  const list = PEOPLE_WORDS.list
  const id = useId()
  const [text, setText] = useState('')
  const [className, setClass] = useState('')
  const [told, setTold] = useState<ClassTold | null>(null)
  const [isAsked, setAsked] = useState(false)
  const [fileWrong, setFileWrong] = useState<string | null>(null)
  const sending = useSending<ClassTold>()
  const send = async (dryRun: boolean): Promise<void> => {
    setAsked(true)
    if (text.trim() === '') return
    const group = className.trim() === '' ? {} : { className: className.trim() }
    const body = { text, dryRun, ...group }
    const answer = await sending.send({ path: PATHS.classList, method: 'POST', body })
    setTold(answer)
    if (answer !== null && !dryRun) onDone()
  }
  const written = (value: string): void => {
    setText(value)
    setTold(null)
    setFileWrong(null)
  }
  const fileChosen = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return
    const words = file.size > LONGEST ? '' : await wordsIn(file)
    written(words ?? '')
    setAsked(false)
    setFileWrong(words === null ? list.unreadable : words === '' ? list.tooLong : null)
  }
  const another = (): void => {
    setText('')
    setTold(null)
    setAsked(false)
  }
  if (told?.dryRun === false) {
    return (
      <div className="unfolded class-list">
        <p className="said" role="status">
          {list.done(told.fresh.length)}
        </p>
        <Problems told={told} />
        <SecondAct onPress={another}>{list.another}</SecondAct>
      </div>
    )
  }
  const isTried = told?.dryRun === true && told.fresh.length > 0
  return (
    <div className="unfolded class-list">
      <p>{list.lead}</p>
      <label htmlFor={id}>{list.text}</label>
      <textarea
        id={id}
        className="notes-text"
        rows={ROWS}
        value={text}
        onChange={(event) => written(event.target.value)}
      />
      <label className="notes-file">
        <span>{list.file}</span>
        <input
          type="file"
          accept=".csv,.txt,text/csv,text/plain"
          onChange={(event) => {
            void fileChosen(event.target.files?.[0])
            event.target.value = ''
          }}
        />
      </label>
      {fileWrong !== null && (
        <p role="alert" className="entry-wrong">
          {fileWrong}
        </p>
      )}
      <Entry label={list.className} value={className} longest={80} onEntry={setClass} />
      <div aria-live="polite">
        {isAsked && text.trim() === '' && <p className="entry-wrong">{list.empty}</p>}
        {sending.message !== null && <p className="entry-wrong">{sending.message}</p>}
        {told !== null && (
          <>
            <p className="said">{list.would(told.fresh.length, told.known.length)}</p>
            <Problems told={told} />
            <p className="soft">{told.fresh.map(({ name }) => name).join(', ')}</p>
          </>
        )}
      </div>
      <div className="entry-acts">
        <Button busy={sending.isBusy} onPress={() => void send(!isTried)}>
          {isTried ? list.act(told.fresh.length) : list.dry}
        </Button>
        {isTried && <SecondAct onPress={() => void send(true)}>{list.dry}</SecondAct>}
      </div>
    </div>
  )
}

function Problems({ told: { problems } }: Readonly<{ told: ClassTold }>): ReactNode {
  return (
    <ul>
      {problems.map(({ line, says }) => (
        <li key={line}>{PEOPLE_WORDS.list.line(line, says)}</li>
      ))}
    </ul>
  )
}
