import { type ReactNode, useCallback, useState } from 'react'
import type { Film, FilmList } from '../../api/films.ts'
import { PATHS } from '../../api/paths.ts'
import { Standing } from '../frame/Standing.tsx'
import { filmRoute, Link, ROUTES, useWay } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { useAsked } from '../useAsked.ts'
import { FRAME_WORDS } from '../words.ts'
import './film.css'
import '../signs/progress.css'
import { DropPlace, Progress } from './DropPlace.tsx'
import { FILM_WORDS, UPLOAD_WORDS } from './filmWords.ts'
import { lengthText } from './findingSays.ts'
import { OPEN_BLANKS, type UploadBlanks, uploadQuestionOf, wrongBlank } from './uploadBlanks.ts'
import { type Upload, useUpload } from './useUpload.ts'

const FILMS = { path: PATHS.films }
const TAKEN = 'image/*,.tif,.tiff,.png,.jpg,.jpeg,.webp,.pdf'

/** Bring a film, or open one that is here. */
export function UploadPage(): ReactNode {
  const { go } = useWay()
  const [file, setFile] = useState<File | null>(null)
  const [blanks, setBlanks] = useState<UploadBlanks>(OPEN_BLANKS)
  const [films, askAgain] = useAsked<FilmList>(FILMS)
  const read = useCallback((film: Film) => go(filmRoute(film.id)), [go])
  const { upload, send, stop } = useUpload(read)
  const question = uploadQuestionOf(blanks)
  const isUnderWay = upload.state === 'sending' || upload.state === 'reading'
  const start = (chosen: File): void => {
    setFile(chosen)
    if (question !== null) send(chosen, question)
  }
  return (
    <div className="upload">
      <div className="upload-words">
        <h1>{UPLOAD_WORDS.title}</h1>
        <p className="upload-intro">{UPLOAD_WORDS.intro}</p>
        <Facts
          blanks={blanks}
          onBlanks={setBlanks}
          asked={upload.state === 'refused' ? upload.field : null}
        />
        <DropPlace
          words={{
            drop: UPLOAD_WORDS.drop,
            choose: UPLOAD_WORDS.choose,
            takes: UPLOAD_WORDS.phone,
          }}
          accept={TAKEN}
          onFile={start}
          isUnderWay={isUnderWay}
        />
        <HowFar upload={upload} />
        {isUnderWay && <SecondAct onPress={stop}>{UPLOAD_WORDS.stop}</SecondAct>}
        {file !== null && !isUnderWay && (
          <Button
            busy={question === null}
            onPress={() => {
              if (question !== null) send(file, question)
            }}
          >
            {(upload.state === 'still' ? UPLOAD_WORDS.send : UPLOAD_WORDS.sendAgain)(file.name)}
          </Button>
        )}
        <p>
          <Link to={ROUTES.photo} className="second-act">
            <span>{UPLOAD_WORDS.photos}</span>
          </Link>
        </p>
        <p>
          <Link to={ROUTES.films} className="second-act">
            <span>{UPLOAD_WORDS.artwork}</span>
          </Link>
        </p>
      </div>
      <div className="upload-films">
        <h2>{UPLOAD_WORDS.films}</h2>
        <Standing asked={films} working={FILM_WORDS.fetching} onAgain={askAgain} />
        {films.answer !== null && <FilmsHere films={films.answer.films} />}
      </div>
    </div>
  )
}

/** What a file may not say of itself, as a sentence of blanks. */
function Facts({
  blanks,
  onBlanks,
  asked,
}: Readonly<{
  blanks: UploadBlanks
  onBlanks: (blanks: UploadBlanks) => void
  /** The field that a refusal was about. */
  asked: string | null
}>): ReactNode {
  const { sentence, labels, as } = UPLOAD_WORDS
  return (
    <p className="sentence" data-asked={asked}>
      {sentence.it}{' '}
      <BlankEntry
        label={labels.resolutionDpi}
        value={blanks.resolutionDpi}
        open={UPLOAD_WORDS.asFileSays}
        numeric
        longest={7}
        wrong={wrongBlank('resolutionDpi', blanks.resolutionDpi)}
        onEntry={(resolutionDpi) => onBlanks({ ...blanks, resolutionDpi })}
      />{' '}
      {sentence.dpi}, {sentence.black}{' '}
      <BlankEntry
        label={labels.solidDensity}
        value={blanks.solidDensity}
        open={UPLOAD_WORDS.usualDensity}
        numeric
        longest={5}
        wrong={wrongBlank('solidDensity', blanks.solidDensity)}
        onEntry={(solidDensity) => onBlanks({ ...blanks, solidDensity })}
      />
      , {sentence.reads}{' '}
      <Blank
        label={labels.as}
        value={blanks.as}
        choices={(['transmission', 'coverage'] as const).map((id) => ({ id, name: as[id] }))}
        onChoice={(id) =>
          onBlanks({ ...blanks, as: id === 'coverage' ? 'coverage' : 'transmission' })
        }
      />
      .
    </p>
  )
}

function HowFar({ upload }: Readonly<{ upload: Upload }>): ReactNode {
  return (
    <div className="how-far" aria-live="polite">
      {(upload.state === 'sending' || upload.state === 'reading') && <UnderWay {...upload} />}
      {upload.state === 'refused' && <p className="upload-refused">{upload.message}</p>}
      {upload.state === 'cut' && <p className="upload-refused">{UPLOAD_WORDS.cut}</p>}
      {upload.state === 'stopped' && <p>{UPLOAD_WORDS.stopped}</p>}
      {upload.state === 'not stopped' && (
        <p className="upload-refused">{UPLOAD_WORDS.notStopped}</p>
      )}
    </div>
  )
}

function UnderWay({
  state,
  share,
}: Readonly<{ state: 'sending' | 'reading'; share: number | null }>): ReactNode {
  if (share === null) return <p>{FRAME_WORDS.noConnection}</p>
  const percent = `${Math.floor(10 * share) * 10} %`
  const says =
    state === 'sending'
      ? UPLOAD_WORDS.sending(percent)
      : share > 0
        ? UPLOAD_WORDS.reading(percent)
        : UPLOAD_WORDS.waiting
  return <Progress says={says} share={share} />
}

function FilmsHere({ films }: Readonly<{ films: readonly Film[] }>): ReactNode {
  const units = useUnits()
  if (films.length === 0) return <p>{UPLOAD_WORDS.noFilms}</p>
  return (
    <ul className="films-here">
      {films.map((film) => (
        <li key={film.id}>
          <Link to={filmRoute(film.id)} className="film-here">
            <strong>{film.name}</strong>
            <span className="soft">{aboutFilm(film, units)}</span>
          </Link>
        </li>
      ))}
    </ul>
  )
}

function aboutFilm(film: Film, units: Parameters<typeof lengthText>[1]): string {
  if (film.status === 'failed') return UPLOAD_WORDS.failed
  if (film.widthMm === null || film.heightMm === null) return UPLOAD_WORDS.notYet
  return UPLOAD_WORDS.film(lengthText(film.widthMm, units), lengthText(film.heightMm, units))
}
