import { type ReactNode, useState } from 'react'
import type { FilmQueueAct, FilmQueue as QueueTold } from '../../../api/filmQueue.ts'
import { filmQueueActsPath, PATHS, type Path } from '../../../api/paths.ts'
import { Standing } from '../../frame/Standing.tsx'
import { Link, ticketRoute } from '../../router.tsx'
import { useUnits } from '../../shop.tsx'
import { SecondAct } from '../../signs/Button.tsx'
import { useSending } from '../../tests/useSending.ts'
import { useAsked } from '../../useAsked.ts'
import { amountEntry, amountUnit } from '../amounts.ts'
import { AskForFilm } from './AskForFilm.tsx'
import { MeasureBar, WhereItLies } from './FilmForms.tsx'
import './queue.css'
import { asking } from '../../ask.ts'
import { QUEUE_WORDS } from './queueWords.ts'

type FilmTold = QueueTold['films'][number]

/** Who waits for which film: made, measured, put away, fetched. */
export function FilmQueue(): ReactNode {
  const units = useUnits()
  const [asked, askAgain] = useAsked<QueueTold>({ path: asking(PATHS.filmQueue, { units }) })
  const [since, setSince] = useState<QueueTold | null>(null)
  const sending = useSending<QueueTold>()
  const queue = since ?? asked.answer
  const send = async (path: Path<{ POST: QueueTold }>, body: object): Promise<boolean> => {
    const answer = await sending.send({ path: asking(path, { units }), method: 'POST', body })
    if (answer !== null) setSince(answer)
    return answer !== null
  }
  return (
    <section className="film-queue">
      <h2>{QUEUE_WORDS.title}</h2>
      <Standing asked={asked} working={QUEUE_WORDS.fetching} onAgain={askAgain} />
      {queue !== null && (
        <>
          {queue.films.length === 0 && <p>{QUEUE_WORDS.none}</p>}
          <ul className="film-queue-list">
            {queue.films.map((film) => (
              <li key={film.id}>
                <OneFilm film={film} act={(act) => send(filmQueueActsPath(film.id), act)} />
              </li>
            ))}
          </ul>
          {sending.message !== null && (
            <p role="alert" className="entry-wrong">
              {sending.message}
            </p>
          )}
          <p>
            <a href={`${PATHS.filmQueuePdf}?units=${units}`} className="second-act">
              <span>{QUEUE_WORDS.onPaper}</span>
            </a>
          </p>
          <AskForFilm queue={queue} onAsk={(body) => send(PATHS.filmQueue, body)} />
        </>
      )}
    </section>
  )
}

type Acts = Readonly<{ film: FilmTold; act: (act: FilmQueueAct) => Promise<boolean> }>

function OneFilm({ film, act }: Acts): ReactNode {
  const { what, ticket, person, askedOn, madeOn, left } = film
  const facts = [
    QUEUE_WORDS.for(person?.name ?? QUEUE_WORDS.nobody),
    QUEUE_WORDS.asked(askedOn),
    ...(madeOn === null ? [] : [QUEUE_WORDS.made(madeOn)]),
    ...(left === null ? [] : [QUEUE_WORDS.left[left.as]]),
  ]
  return (
    <>
      <p>
        <strong>
          {ticket === null ? (
            what
          ) : (
            <Link to={ticketRoute(ticket)} className="word-link">
              {what}
            </Link>
          )}
        </strong>{' '}
        <span className="soft">{facts.join(', ')}</span>
      </p>
      {madeOn !== null && <Measured film={film} />}
      {left === null && <FilmActs film={film} act={act} />}
    </>
  )
}

function Measured({ film: { scale, liesIn } }: Readonly<{ film: FilmTold }>): ReactNode {
  const units = useUnits()
  const length = (lengthMm: number): string =>
    `${amountEntry(lengthMm, 'length', units)} ${amountUnit('length', units) ?? ''}`
  const lies = liesIn === null ? [] : [QUEUE_WORDS.lies(liesIn)]
  const says =
    scale === null
      ? [`${sentence(QUEUE_WORDS.unchecked)}.`]
      : [
          sentence(QUEUE_WORDS.bar(length(scale.barMm), length(scale.measuredMm))),
          ...(scale.across === null
            ? []
            : [QUEUE_WORDS.across(length(scale.across.barMm), length(scale.across.measuredMm))]),
          ...scale.says,
        ]
  return (
    <p className={scale?.is === 'true' ? 'film-queue-says' : 'film-queue-says film-queue-look'}>
      {[...says, ...lies].join(' ')}
    </p>
  )
}

/** What can be done with it now; the next thing first. */
function FilmActs({ film, act }: Acts): ReactNode {
  const [open, setOpen] = useState<'measure' | 'put' | null>(null)
  const { madeOn, scale } = film
  const toggle = (which: 'measure' | 'put'): void => setOpen(open === which ? null : which)
  const done = async (what: FilmQueueAct): Promise<void> => {
    if (await act(what)) setOpen(null)
  }
  return (
    <>
      <div className="entry-acts">
        {madeOn === null ? (
          <SecondAct onPress={() => void done({ kind: 'made' })}>{QUEUE_WORDS.isMade}</SecondAct>
        ) : (
          <>
            <SecondAct expanded={open === 'measure'} onPress={() => toggle('measure')}>
              {scale === null ? QUEUE_WORDS.measure : QUEUE_WORDS.measureAgain}
            </SecondAct>
            {scale?.is === 'off' && (
              <SecondAct onPress={() => void done({ kind: 'again' })}>
                {QUEUE_WORDS.again}
              </SecondAct>
            )}
            <SecondAct expanded={open === 'put'} onPress={() => toggle('put')}>
              {QUEUE_WORDS.put}
            </SecondAct>
            <SecondAct onPress={() => void done({ kind: 'fetched' })}>
              {QUEUE_WORDS.fetched}
            </SecondAct>
          </>
        )}
        {madeOn === null && (
          <SecondAct onPress={() => void done({ kind: 'not wanted' })}>
            {QUEUE_WORDS.notWanted}
          </SecondAct>
        )}
      </div>
      {open === 'measure' && <MeasureBar crosses={film.crosses} onNote={done} />}
      {open === 'put' && <WhereItLies liesIn={film.liesIn} onNote={done} />}
    </>
  )
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
