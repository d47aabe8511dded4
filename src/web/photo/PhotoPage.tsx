import { type ReactNode, useCallback, useMemo, useState } from 'react'
import { PATHS, photoAskPath, photoPath } from '../../api/paths.ts'
import type { Photo } from '../../api/photos.ts'
import type { PaperName } from '../../workflow/papers/paperSizes.ts'
import { ask } from '../ask.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { usualPaper } from '../tests/papers.ts'
import './photo.css'
import '../signs/progress.css'
import { PhotoRead } from './PhotoRead.tsx'
import { PhotoWhere } from './PhotoWhere.tsx'
import { PHOTO_WORDS } from './photoWords.ts'
import { TakePhoto } from './TakePhoto.tsx'
import { usePhoto } from './usePhoto.ts'
import { useSendPhoto } from './useSendPhoto.ts'

/** A photo of a drawing becomes a film. */
export function PhotoPage(): ReactNode {
  const { search, go } = useWay()
  const id = useMemo(() => new URLSearchParams(search).get('photo'), [search])
  const [photo, askAgain] = usePhoto(id)
  const taken = useCallback(
    ({ id: came }: Photo) =>
      go(`${ROUTES.photo}?${new URLSearchParams({ photo: came }).toString()}`),
    [go],
  )
  const { sending, send, stop } = useSendPhoto(taken)
  const again = (): void => {
    if (id !== null) void ask({ path: photoPath(id), method: 'DELETE' })
    go(ROUTES.photo)
  }
  if (id === null) {
    return (
      <div className="photo">
        <h1>{PHOTO_WORDS.title}</h1>
        <p className="photo-intro">{PHOTO_WORDS.intro}</p>
        <div className="cautions">
          <p>{PHOTO_WORDS.cautionLamp}</p>
          <p>{PHOTO_WORDS.cautionWater}</p>
        </div>
        <TakePhoto
          sending={sending}
          onStop={stop}
          onPhoto={(file) => send(file, { subject: 'film' })}
        />
        <Mat />
        <p>
          <Link to={ROUTES.upload} className="second-act">
            <span>{PHOTO_WORDS.file}</span>
          </Link>
        </p>
      </div>
    )
  }
  const shown = photo.answer
  return (
    <div className="photo">
      {shown === null && <h1>{PHOTO_WORDS.title}</h1>}
      <Standing asked={photo} working={PHOTO_WORDS.fetching} onAgain={askAgain} />
      {shown === null ? (
        photo.now === 'refused' && <SecondAct onPress={again}>{PHOTO_WORDS.again}</SecondAct>
      ) : (
        <Shown key={shown.id} photo={shown} onAgain={again} onAsked={askAgain} />
      )}
    </div>
  )
}

type ShownProps = Readonly<{ photo: Photo; onAgain: () => void; onAsked: () => void }>

/** A photo that came, as far as it is. */
function Shown({ photo, onAgain, onAsked }: ShownProps): ReactNode {
  const [isByHand, setByHand] = useState(false)
  const { status, preview, reading } = photo
  const another = <SecondAct onPress={onAgain}>{PHOTO_WORDS.again}</SecondAct>
  if (status === 'failed') {
    return (
      <>
        <h1>{PHOTO_WORDS.title}</h1>
        <p className="photo-refused" role="alert">
          {photo.message}
        </p>
        {another}
      </>
    )
  }
  if (preview === null || status === 'waiting') {
    return (
      <>
        <h1>{PHOTO_WORDS.title}</h1>
        <Working photo={photo} onStop={null} />
      </>
    )
  }
  if (status === 'reading') {
    const stopReading = async (): Promise<void> => {
      await ask({ path: photoAskPath(photo.id), method: 'DELETE' })
      setByHand(true)
      onAsked()
    }
    return (
      <div className="photo-halves">
        <div className="photo-head">
          <h1>{PHOTO_WORDS.title}</h1>
        </div>
        <img className="photo-still" src={preview} alt={PHOTO_WORDS.picture(photo.name)} />
        <div className="photo-words">
          <Working photo={photo} onStop={() => void stopReading()} />
        </div>
      </div>
    )
  }
  if (reading !== null && !isByHand) {
    return (
      <PhotoRead
        photo={photo}
        reading={reading}
        another={another}
        onByHand={() => setByHand(true)}
      />
    )
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

function Working({
  photo,
  onStop,
}: Readonly<{ photo: Photo; onStop: (() => void) | null }>): ReactNode {
  const says = photo.status === 'reading' ? PHOTO_WORDS.reading : PHOTO_WORDS.looking
  return (
    <div className="photo-working">
      <p aria-live="polite">{says}</p>
      <progress value={photo.progressShare} max={1} aria-label={says} />
      {onStop !== null && <SecondAct onPress={onStop}>{PHOTO_WORDS.stop}</SecondAct>}
    </div>
  )
}

type MatSize = Extract<PaperName, 'a4' | 'letter' | 'a3'>
const MAT_SIZES: readonly Readonly<{ id: MatSize; name: string }>[] = [
  { id: 'a4', name: 'A4' },
  { id: 'letter', name: 'Letter' },
  { id: 'a3', name: 'A3' },
]

/** The printable mat, on the paper that the shop has. */
function Mat(): ReactNode {
  const [size, setSize] = useState<MatSize>(usualPaper)
  return (
    <div className="photo-mat">
      <p>
        <a className="second-act" href={`${PATHS.mat}?size=${size}`}>
          <span>{PHOTO_WORDS.mat}</span>
        </a>{' '}
        {PHOTO_WORDS.matOn}{' '}
        <Blank
          label={PHOTO_WORDS.matPaper}
          value={size}
          choices={MAT_SIZES}
          onChoice={(id) => setSize(MAT_SIZES.find((known) => known.id === id)?.id ?? size)}
        />
      </p>
      <p className="small">{PHOTO_WORDS.matOnce}</p>
    </div>
  )
}
