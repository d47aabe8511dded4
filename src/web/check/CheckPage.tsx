import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react'
import type { Film, FilmList } from '../../api/films.ts'
import { PATHS, photoAskPath, photoPath } from '../../api/paths.ts'
import type { Photo } from '../../api/photos.ts'
import { ask } from '../ask.ts'
import { Standing } from '../frame/Standing.tsx'
import { PhotoWhere } from '../photo/PhotoWhere.tsx'
import { PHOTO_WORDS } from '../photo/photoWords.ts'
import { TakePhoto } from '../photo/TakePhoto.tsx'
import { usePhoto } from '../photo/usePhoto.ts'
import { useSendPhoto } from '../photo/useSendPhoto.ts'
import { Link, ROUTES, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { useAsked } from '../useAsked.ts'
import '../photo/photo.css'
import '../signs/progress.css'
import './check.css'
import { CheckAnswer } from './CheckAnswer.tsx'
import { CHECK_WORDS } from './checkWords.ts'

/** The washed-out screen against its film. */
export function CheckPage(): ReactNode {
  const { search, go } = useWay()
  const said = useMemo(() => new URLSearchParams(search), [search])
  const [id, film] = [said.get('photo'), said.get('film') ?? '']
  const [photo, askAgain] = usePhoto(id)
  const to = useCallback(
    (asked: Readonly<Record<string, string>>) =>
      go(`${ROUTES.check}?${new URLSearchParams(asked).toString()}`),
    [go],
  )
  const taken = useCallback((came: Photo) => to({ film, photo: came.id }), [to, film])
  const { sending, send, stop } = useSendPhoto(taken)
  const again = (): void => {
    if (id !== null) void ask({ path: photoPath(id), method: 'DELETE' })
    to({ film: film || (photo.answer?.film?.id ?? '') })
  }
  if (id === null) {
    return (
      <div className="check photo">
        <h1>{CHECK_WORDS.title}</h1>
        <p className="photo-intro">{CHECK_WORDS.intro}</p>
        <WhichFilm film={film} onFilm={(chosen) => to({ film: chosen })} />
        <div className="cautions">
          <p>{CHECK_WORDS.cautionLamp}</p>
          <p>{CHECK_WORDS.cautionWater}</p>
        </div>
        <TakePhoto
          sending={sending}
          onStop={stop}
          onPhoto={(file) => send(file, { subject: 'screen', film })}
          blocked={film === '' ? CHECK_WORDS.filmFirst : null}
        />
      </div>
    )
  }
  const shown = photo.answer
  return (
    <div className="check photo">
      {shown === null && <h1>{CHECK_WORDS.title}</h1>}
      <Standing asked={photo} working={CHECK_WORDS.fetching} onAgain={askAgain} />
      {shown === null ? (
        photo.now === 'refused' && <SecondAct onPress={again}>{CHECK_WORDS.again}</SecondAct>
      ) : (
        <Shown key={shown.id} photo={shown} onAgain={again} onAsked={askAgain} />
      )}
    </div>
  )
}

/** The film, chosen from those that are here and can be read. */
function WhichFilm({
  film,
  onFilm,
}: Readonly<{ film: string; onFilm: (film: string) => void }>): ReactNode {
  const [films, askAgain] = useAsked<FilmList>(FILMS)
  const all = films.answer?.films ?? []
  const ready = all.filter(({ status }) => status === 'ready')
  const isReading = all.some(({ status }) => status === 'waiting')
  const { answeredAt } = films
  useEffect(() => {
    if (!isReading || answeredAt === null) return undefined
    const timer = setTimeout(askAgain, LOOK_AGAIN_MS)
    return () => clearTimeout(timer)
  }, [isReading, answeredAt, askAgain])
  return (
    <>
      <Standing asked={films} working={CHECK_WORDS.fetchingFilms} onAgain={askAgain} />
      {isReading && (
        <p className="small" aria-live="polite">
          {CHECK_WORDS.filmsRead(ready.length, all.length)}
        </p>
      )}
      {films.answer !== null && ready.length === 0 && !isReading && (
        <p>
          {CHECK_WORDS.noFilms}{' '}
          <Link to={ROUTES.upload} className="word-link">
            {CHECK_WORDS.toFilm}
          </Link>
        </p>
      )}
      {ready.length > 0 && (
        <p className="sentence">
          {CHECK_WORDS.with}{' '}
          <Blank
            label={CHECK_WORDS.film}
            value={film}
            choices={ready.map(({ id, name }: Film) => ({ id, name }))}
            open={CHECK_WORDS.whichFilm}
            onChoice={onFilm}
          />
          .
        </p>
      )}
    </>
  )
}

const FILMS = { path: PATHS.films }

/** While films are being read, how often one asks whether there are more. */
const LOOK_AGAIN_MS = 2000

type ShownProps = Readonly<{ photo: Photo; onAgain: () => void; onAsked: () => void }>

/** A photo that came, as far as it is. */
function Shown({ photo, onAgain, onAsked }: ShownProps): ReactNode {
  const [isByHand, setByHand] = useState(false)
  const { status, preview, inspection } = photo
  const another = <SecondAct onPress={onAgain}>{CHECK_WORDS.again}</SecondAct>
  const byHand = <SecondAct onPress={() => setByHand(true)}>{CHECK_WORDS.byHand}</SecondAct>
  if (status === 'waiting' || status === 'reading') {
    const stop = async (): Promise<void> => {
      await ask({ path: photoAskPath(photo.id), method: 'DELETE' })
      onAsked()
    }
    return (
      <div className="photo-halves">
        <div className="photo-head">
          <h1>{CHECK_WORDS.title}</h1>
        </div>
        {preview === null ? (
          <div />
        ) : (
          <img className="photo-still" src={preview} alt={PHOTO_WORDS.picture(photo.name)} />
        )}
        <div className="photo-words photo-working">
          <p aria-live="polite">
            {status === 'reading' ? CHECK_WORDS.comparing : PHOTO_WORDS.looking}
          </p>
          <progress value={photo.progressShare} max={1} aria-label={CHECK_WORDS.comparing} />
          {status === 'reading' && (
            <SecondAct onPress={() => void stop()}>{PHOTO_WORDS.stop}</SecondAct>
          )}
        </div>
      </div>
    )
  }
  if (status === 'failed' || preview === null) {
    return (
      <>
        <h1>{CHECK_WORDS.title}</h1>
        <p className="photo-refused" role="alert">
          {photo.message}
        </p>
        {another}
      </>
    )
  }
  if (inspection !== null && !isByHand) {
    return <CheckAnswer {...{ photo, inspection, another, byHand, onAgain }} />
  }
  return (
    <PhotoWhere
      photo={photo}
      another={another}
      onAsked={() => {
        setByHand(false)
        onAsked()
      }}
    />
  )
}
