import { type ReactNode, useMemo, useState } from 'react'
import type { Trouble } from '../../api/diagnosis.ts'
import { PATHS, troubleCausePath } from '../../api/paths.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'
import { FRAME_WORDS } from '../words.ts'
import { Causes, Questions, TheTest } from './Causes.tsx'
import { SignChoice } from './SignChoice.tsx'
import './trouble.css'
import { asking } from '../ask.ts'
import { TROUBLE_WORDS } from './troubleWords.ts'

export type SignName = Trouble['yes'][number]
/** A sign is there, is not, or nobody said. */
export type SaySign = (sign: SignName, is: 'yes' | 'no' | 'unsure' | null) => void

/** Why a screen failed: what is seen, what the shop knows, the likeliest causes, one test. */
export function TroublePage(): ReactNode {
  const { search, go } = useWay()
  const question = useMemo(() => ({ path: asking(PATHS.trouble, search) }), [search])
  const [asked, askAgain] = useAsked<Trouble>(question)
  const said = new URLSearchParams(search)
  const listOf = (name: string): readonly string[] =>
    (said.get(name) ?? '').split(',').filter(Boolean)
  const change = (changed: Readonly<Record<string, string>>): void => {
    const next = new URLSearchParams(search)
    for (const [name, value] of Object.entries(changed)) {
      if (value === '') next.delete(name)
      else next.set(name, value)
    }
    const text = next.toString()
    go(`${ROUTES.trouble}${text === '' ? '' : `?${text}`}`, 'replace')
  }
  const say: SaySign = (sign, is) => {
    const without = (name: string): readonly string[] =>
      listOf(name).filter((each) => each !== sign)
    const [yes, no, unsure] = [without('yes'), without('no'), without('unsure')]
    change({
      yes: (is === 'yes' ? [...yes, sign] : yes).join(','),
      no: (is === 'no' ? [...no, sign] : no).join(','),
      unsure: (is === 'unsure' ? [...unsure, sign] : unsure).join(','),
    })
  }
  const trouble = asked.answer
  const likeliest = trouble?.ranked[0]
  return (
    <div className="trouble">
      <div className="trouble-signs">
        <h1>{FRAME_WORDS.troubleTitle}</h1>
        <Standing asked={asked} working={TROUBLE_WORDS.fetching} onAgain={askAgain} />
        {trouble !== null && (
          <>
            {trouble.runs.length > 0 && (
              <p className="sentence">
                {`${TROUBLE_WORDS.of} `}
                <Blank
                  label={TROUBLE_WORDS.run}
                  value={said.get('run') ?? ''}
                  choices={trouble.runs}
                  open={TROUBLE_WORDS.anyRun}
                  onChoice={(run) => change({ run })}
                />
              </p>
            )}
            <SignChoice trouble={trouble} yes={listOf('yes')} no={listOf('no')} onSay={say} />
            {likeliest !== undefined && (
              <a className="trouble-likeliest" href="#causes">
                {TROUBLE_WORDS.likeliest(likeliest.says)}
              </a>
            )}
          </>
        )}
      </div>
      {trouble !== null && (
        <div className="trouble-causes" id="causes" aria-live="polite">
          <Causes trouble={trouble} />
          {trouble.ranked.length > 0 && (
            <>
              <Questions trouble={trouble} onSay={say} />
              <TheTest trouble={trouble} onSay={say} />
            </>
          )}
          <Known trouble={trouble} onSay={say} />
          <FoundOut trouble={trouble} run={said.get('run')} onTaken={askAgain} />
        </div>
      )}
    </div>
  )
}

function Known({
  trouble: { told, yes, no },
  onSay,
}: Readonly<{ trouble: Trouble; onSay: SaySign }>): ReactNode {
  const said = new Set<string>([...yes, ...no])
  const open = told.filter(({ sign }) => !said.has(sign))
  if (open.length === 0) return null
  return (
    <section className="trouble-part">
      <h2>{TROUBLE_WORDS.told}</h2>
      <p className="small">{TROUBLE_WORDS.toldMore}</p>
      <ul className="trouble-told">
        {open.map(({ sign, is, because }) => (
          <li key={sign}>
            {because}{' '}
            <button
              type="button"
              className="word-link"
              onClick={() => onSay(sign, is === 'yes' ? 'no' : 'yes')}
            >
              {TROUBLE_WORDS.notSo}
              <span className="unseen">: {because}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** What it was, once somebody knows. */
function FoundOut({
  trouble,
  run,
  onTaken,
}: Readonly<{ trouble: Trouble; run: string | null; onTaken: () => void }>): ReactNode {
  const [chosen, setChosen] = useState('')
  const [said, setSaid] = useState<string | null>(null)
  const sending = useSending<Trouble>()
  const cause = chosen === '' ? (trouble.ranked[0]?.cause ?? '') : chosen
  const take = async (known: string | null): Promise<void> => {
    if (sending.isBusy) return
    const body = {
      yes: trouble.yes,
      no: trouble.no,
      cause: known,
      ...(run === null ? {} : { run }),
    }
    if ((await sending.send({ path: PATHS.trouble, method: 'POST', body })) === null) return
    setSaid(known === null ? TROUBLE_WORDS.takenOpen : TROUBLE_WORDS.taken)
    onTaken()
  }
  const confirm = async (id: string, known: string): Promise<void> => {
    const path = troubleCausePath(id)
    if ((await sending.send({ path, method: 'POST', body: { cause: known } })) === null) return
    setSaid(TROUBLE_WORDS.taken)
    onTaken()
  }
  return (
    <section className="trouble-part">
      {trouble.yes.length > 0 && (
        <>
          <h2>{TROUBLE_WORDS.out}</h2>
          <p className="sentence">
            {`${TROUBLE_WORDS.itWas}: `}
            <Blank
              label={TROUBLE_WORDS.cause}
              value={cause}
              choices={trouble.causes}
              onChoice={setChosen}
            />
          </p>
          <div className="trouble-acts">
            <Button busy={sending.isBusy} onPress={() => void take(cause)}>
              {TROUBLE_WORDS.confirm}
            </Button>
            <SecondAct onPress={() => void take(null)}>{TROUBLE_WORDS.takeDown}</SecondAct>
          </div>
        </>
      )}
      {said !== null && <p className="said">{said}</p>}
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <p className="small">{TROUBLE_WORDS.learned(trouble.learnedFrom)}</p>
      <p className="small">{TROUBLE_WORDS.limits}</p>
      <p>
        <Link to={ROUTES.causes} className="second-act">
          <span>{TROUBLE_WORDS.table}</span>
        </Link>
      </p>
      {trouble.past.length > 0 && (
        <>
          <h2>{TROUBLE_WORDS.past}</h2>
          <ul className="trouble-told">
            {trouble.past.map((past) => (
              <li key={past.id}>
                {TROUBLE_WORDS.pastLine(past.on, past.guessed, past.cause)}
                {past.cause === null && (
                  <>
                    {` ${TROUBLE_WORDS.itWas} `}
                    <Blank
                      label={`${TROUBLE_WORDS.cause}, ${past.on}`}
                      value=""
                      choices={trouble.causes}
                      open={TROUBLE_WORDS.which}
                      onChoice={(known) => {
                        if (known !== '') void confirm(past.id, known)
                      }}
                    />
                  </>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  )
}
