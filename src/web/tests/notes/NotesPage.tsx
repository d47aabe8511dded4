import { type ReactNode, useId, useMemo, useState } from 'react'
import { PATHS } from '../../../api/paths.ts'
import type { NotesRead, Tests } from '../../../api/tests.ts'
import { wordsIn } from '../../fileText.ts'
import { Link, ROUTES, useWay } from '../../router.tsx'
import { Blank } from '../../signs/Blank.tsx'
import { Button } from '../../signs/Button.tsx'
import { useAsked } from '../../useAsked.ts'
import { TESTS_TITLES } from '../../words.ts'
import { Back } from '../Back.tsx'
import { SetUpBlanks } from '../SetUpSentence.tsx'
import { type SetUp, saidOnly, setUpOf, withWords } from '../setUp.ts'
import { useSending } from '../useSending.ts'
import './notes.css'
import { NOTES_WORDS } from './notesWords.ts'

const LONGEST = 900_000
/** More lines than this are only counted. */
const SHOWN = 12
/** So many lines one mends in a go. */
const MENDED = 50

/** Which number comes first in a date like 3/4/2026. */
type SlashDates = keyof typeof NOTES_WORDS.slashDates

/** Old notes are looked through first, then taken down. */
export function NotesPage(): ReactNode {
  const { search, go } = useWay()
  const setUp = useMemo(() => setUpOf(search), [search])
  const [tests] = useAsked<Tests>(useMemo(() => ({ path: withWords(PATHS.tests, setUp) }), [setUp]))
  return (
    <div className="notes">
      <div className="notes-head">
        <Back setUp={setUp} />
        <h1>{NOTES_WORDS.title}</h1>
        <p className="how">{NOTES_WORDS.intro}</p>
        {tests.answer !== null && (
          <p className="tests-sentence">
            {NOTES_WORDS.where}{' '}
            <SetUpBlanks
              tests={tests.answer}
              onChange={(changed: Partial<SetUp>) =>
                go(withWords(ROUTES.notes, { ...setUp, ...changed }), 'replace')
              }
            />
            .
          </p>
        )}
      </div>
      <Reading setUp={setUp} />
    </div>
  )
}

function Reading({ setUp }: Readonly<{ setUp: SetUp }>): ReactNode {
  const [text, setText] = useState('')
  const [wrong, setWrong] = useState<string | null>(null)
  const [read, setRead] = useState<NotesRead | null>(null)
  const [slashDates, setSlashDates] = useState<SlashDates>()
  const sending = useSending<NotesRead>()
  const write = (written: string): void => {
    setText(written)
    setWrong(null)
    setRead(null)
    setSlashDates(undefined)
  }
  const send = async (dryRun: boolean, slashes = slashDates): Promise<void> => {
    if (text.trim() === '') setWrong(NOTES_WORDS.missing)
    else if (text.length > LONGEST) setWrong(NOTES_WORDS.tooLong)
    else {
      const answer = await sending.send({
        path: PATHS.notes,
        method: 'POST',
        body: { ...saidOnly(setUp), text, dryRun, slashDates: slashes },
      })
      if (answer !== null) setRead(answer)
    }
  }
  const fileChosen = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return
    const words = await wordsIn(file)
    if (words === null) setWrong(NOTES_WORDS.unreadable)
    else write(words)
  }
  const slashesSaid = (said: SlashDates): void => {
    setSlashDates(said)
    void send(true, said)
  }
  if (read !== null && !read.dryRun) return <AllTaken read={read} setUp={setUp} />
  return (
    <>
      <NotesText text={text} wrong={wrong ?? sending.message} onText={write} onFile={fileChosen} />
      {read?.slashDatesUnclear === true && (
        <SlashDatesAsked value={slashDates} onSaid={slashesSaid} />
      )}
      {read !== null &&
        (read.slashDatesUnclear && slashDates === undefined && read.taken === 0 ? (
          <p aria-live="polite">{NOTES_WORDS.slashesFirst}</p>
        ) : (
          <Found read={read} />
        ))}
      {read === null || read.taken === 0 ? (
        <Button busy={sending.isBusy} onPress={() => void send(true)}>
          {sending.isBusy ? NOTES_WORDS.looking : NOTES_WORDS.look}
        </Button>
      ) : (
        <Button busy={sending.isBusy} onPress={() => void send(false)}>
          {sending.isBusy ? NOTES_WORDS.taking : NOTES_WORDS.take(read.taken)}
        </Button>
      )}
    </>
  )
}

function NotesText({
  text,
  wrong,
  onText,
  onFile,
}: Readonly<{
  text: string
  wrong: string | null
  onText: (text: string) => void
  onFile: (file: File | undefined) => Promise<void>
}>): ReactNode {
  const id = useId()
  const why = `${id}why`
  return (
    <div className="notes-entry">
      <label htmlFor={id}>{NOTES_WORDS.text}</label>
      <textarea
        id={id}
        className="notes-text"
        rows={10}
        value={text}
        placeholder={NOTES_WORDS.example}
        spellCheck={false}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : why}
        onChange={(event) => onText(event.target.value)}
      />
      <p className="small">{NOTES_WORDS.outcomes}</p>
      <p aria-live="polite" id={why} className="entry-wrong read-refused">
        {wrong}
      </p>
      <label className="notes-file">
        <span>{NOTES_WORDS.file}</span>
        <input
          type="file"
          accept=".csv,.txt,text/csv,text/plain"
          onChange={(event) => {
            void onFile(event.target.files?.[0])
            event.target.value = ''
          }}
        />
      </label>
    </div>
  )
}

/** Asked only where the notes do not tell by themselves. */
function SlashDatesAsked({
  value,
  onSaid,
}: Readonly<{ value: SlashDates | undefined; onSaid: (said: SlashDates) => void }>): ReactNode {
  const { slashDates, slashes, slashesOpen, slashesWhy } = NOTES_WORDS
  const orders = Object.keys(slashDates) as SlashDates[]
  return (
    <div className="notes-slashes">
      <p>{slashesWhy}</p>
      <p className="tests-sentence">
        {slashes}{' '}
        <Blank
          label={slashes}
          value={value ?? ''}
          choices={orders.map((id) => ({ id, name: slashDates[id] }))}
          onChoice={(id) => {
            const said = orders.find((order) => order === id)
            if (said !== undefined) onSaid(said)
          }}
          {...(value === undefined ? { open: slashesOpen } : {})}
        />
        .
      </p>
    </div>
  )
}

/** What a look through the notes found: lines that cannot be taken, and how the others would be. */
function Found({ read }: Readonly<{ read: NotesRead }>): ReactNode {
  const { taken, lines, problems, preview } = read
  const shown = preview.slice(0, SHOWN)
  return (
    <div className="notes-found" aria-live="polite">
      <p className="said">{NOTES_WORDS.found(taken, lines)}</p>
      {taken === 0 && <p>{NOTES_WORDS.none}</p>}
      {problems.length > 0 && (
        <>
          <h2>{NOTES_WORDS.problems}</h2>
          <Problems problems={problems} />
        </>
      )}
      {shown.length > 0 && (
        <>
          <h2>{NOTES_WORDS.preview}</h2>
          <Numbered lines={shown.map(({ line, says }) => ({ line, words: says }))} />
          {taken > shown.length && <p className="soft">{NOTES_WORDS.more(taken - shown.length)}</p>}
        </>
      )}
    </div>
  )
}

function Problems({ problems }: Readonly<{ problems: NotesRead['problems'] }>): ReactNode {
  const shown = problems.slice(0, MENDED)
  return (
    <>
      <Numbered
        lines={shown.map(({ line, message }) => ({ line, words: withoutLine(message) }))}
        look
      />
      {problems.length > shown.length && (
        <p className="soft">{NOTES_WORDS.more(problems.length - shown.length)}</p>
      )}
    </>
  )
}

/** A sentence may name its line itself; here the line stands before it. */
function withoutLine(message: string): string {
  return message.replace(/^Line \d+: /, '')
}

function Numbered({
  lines,
  look = false,
}: Readonly<{
  lines: readonly Readonly<{ line: number; words: string }>[]
  /** Look here: each wants mending. */
  look?: boolean
}>): ReactNode {
  return (
    <ul className={look ? 'notes-lines notes-look' : 'notes-lines'}>
      {lines.map(({ line, words }) => (
        <li key={`${line} ${words}`}>
          <strong>{NOTES_WORDS.line(line)}</strong> <span>{words}</span>
        </li>
      ))}
    </ul>
  )
}

function AllTaken({ read, setUp }: Readonly<{ read: NotesRead; setUp: SetUp }>): ReactNode {
  const { go } = useWay()
  return (
    <div className="notes-found">
      <p role="status" className="said">
        {NOTES_WORDS.taken(read.taken)}
      </p>
      {read.problems.length > 0 && (
        <>
          <h2>{NOTES_WORDS.problems}</h2>
          <Problems problems={read.problems} />
        </>
      )}
      <div className="read-acts">
        <Button onPress={() => go(withWords(ROUTES.tests, setUp))}>{TESTS_TITLES.tests}</Button>
        <Link to={withWords(ROUTES.readings, setUp)} className="second-act">
          <span>{TESTS_TITLES.readings}</span>
        </Link>
      </div>
    </div>
  )
}
