import { type ReactNode, useCallback, useEffect, useId, useRef, useState } from 'react'
import { photoAskPath, photoPath } from '../../../api/paths.ts'
import type { Photo, PhotoStrip } from '../../../api/photos.ts'
import type { Tests } from '../../../api/tests.ts'
import { USUAL_WEDGE } from '../../../core/calibration/wedge.ts'
import type { FilmPaper } from '../../../workflow/papers/testFilmLayout.ts'
import { ask } from '../../ask.ts'
import { Standing } from '../../frame/Standing.tsx'
import { PHOTO_WORDS } from '../../photo/photoWords.ts'
import { TakePhoto } from '../../photo/TakePhoto.tsx'
import { usePhoto } from '../../photo/usePhoto.ts'
import { useSendPhoto } from '../../photo/useSendPhoto.ts'
import { SecondAct } from '../../signs/Button.tsx'
import { usualPaper } from '../papers.ts'
import { type Draft } from '../read/draft.ts'
import { stepsOf } from '../wedgeDraft.ts'
import '../../photo/photo.css'
import './byPhoto.css'
import { BY_PHOTO_WORDS } from './byPhotoWords.ts'
import { proposalSays, proposed, stripAsked } from './proposal.ts'
import { StripFilm } from './StripFilm.tsx'
import { WhereItLies } from './WhereItLies.tsx'

export type ByPhotoProps = Readonly<{
  kind: 'wedge' | 'strip'
  draft: Draft
  countsIn: Tests['countsIn']
  onDraft: (changed: Partial<Draft>) => void
}>

/** A washed-out wedge or strip read from a photo, which fills in what is told by eye otherwise. */
export function ByPhoto({ kind, draft, countsIn, onDraft }: ByPhotoProps): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [photoId, setPhotoId] = useState<string | null>(null)
  const [paper, setPaper] = useState<FilmPaper>(usualPaper)
  const [marks, setMarks] = useState<PhotoStrip['marks']>('printed')
  const id = useId()
  const { sending, send, stop } = useSendPhoto(
    useCallback((came: Photo) => setPhotoId(came.id), []),
  )
  const strip = kind === 'strip' ? stripAsked(draft, { paper, marks, countsIn }) : null
  const isReady = kind === 'wedge' || strip !== null
  const drop = (): void => {
    if (photoId !== null) void ask({ path: photoPath(photoId), method: 'DELETE' })
    setPhotoId(null)
  }
  return (
    <section className="by-photo unfolding">
      <SecondAct
        expanded={isOpen}
        controls={id}
        onPress={() => {
          if (isOpen) drop()
          setOpen(!isOpen)
        }}
      >
        {isOpen ? BY_PHOTO_WORDS.none : BY_PHOTO_WORDS.open}
      </SecondAct>
      <div id={id} className="unfolded" hidden={!isOpen}>
        {kind === 'strip' && (
          <StripFilm {...{ paper, marks }} onPaper={setPaper} onMarks={setMarks} />
        )}
        {photoId === null ? (
          <>
            <p className="how">{BY_PHOTO_WORDS.how[kind]}</p>
            <p className="by-photo-caution">{BY_PHOTO_WORDS.caution}</p>
            <TakePhoto
              sending={sending}
              onStop={stop}
              onPhoto={(file) => send(file, { subject: kind })}
              blocked={isReady ? null : BY_PHOTO_WORDS.dosesFirst}
            />
          </>
        ) : (
          <Taken key={photoId} {...{ kind, photoId, strip, draft, onDraft }} onAnother={drop} />
        )}
      </div>
    </section>
  )
}

type TakenProps = Pick<ByPhotoProps, 'kind' | 'draft' | 'onDraft'> &
  Readonly<{
    photoId: string
    strip: PhotoStrip | null
    onAnother: () => void
  }>

/** A photo that came, as far as it is. */
function Taken({ kind, photoId, strip, draft, onDraft, onAnother }: TakenProps): ReactNode {
  const [asked, askAgain] = usePhoto(photoId)
  const [isByHand, setByHand] = useState(false)
  const photo = asked.answer
  const another = <SecondAct onPress={onAnother}>{BY_PHOTO_WORDS.another}</SecondAct>
  useFindsItself(photo, { strip, askAgain })
  useFilledIn(photo, { draft, onDraft })
  if (photo === null) {
    return (
      <>
        <Standing asked={asked} working={PHOTO_WORDS.fetching} onAgain={askAgain} />
        {asked.now === 'refused' && another}
      </>
    )
  }
  const { status, preview, test } = photo
  if (status === 'failed') {
    return (
      <>
        <p className="photo-refused" role="alert">
          {photo.message}
        </p>
        {another}
      </>
    )
  }
  const isWorking = status === 'waiting' || status === 'reading'
  const looks = kind === 'strip' && photo.asked === null && photo.message === null
  if (isWorking || preview === null || looks) {
    const says = preview === null ? PHOTO_WORDS.looking : BY_PHOTO_WORDS.working[kind]
    return (
      <div className="photo-working">
        <p aria-live="polite">{says}</p>
        <progress value={photo.progressShare} max={1} aria-label={says} />
        {another}
      </div>
    )
  }
  if (test !== null && !isByHand) {
    return (
      <div className="by-photo-told" aria-live="polite">
        <p>{BY_PHOTO_WORDS.found}</p>
        <ul>
          {proposalSays(test).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {[...(test.kind === 'wedge' ? [BY_PHOTO_WORDS.skin] : []), ...test.warnings].map((line) => (
          <p key={line} className="small">
            {line}
          </p>
        ))}
        <div className="photo-acts">
          <SecondAct onPress={() => setByHand(true)}>{BY_PHOTO_WORDS.byHand}</SecondAct>
          {another}
        </div>
      </div>
    )
  }
  const where =
    kind === 'wedge'
      ? { wedgeDensities: { ...USUAL_WEDGE, steps: stepsOf(draft) } }
      : strip && { strip }
  return (
    <WhereItLies
      {...{ kind, photo, another, where }}
      onAsked={() => {
        setByHand(false)
        askAgain()
      }}
    />
  )
}

/** A strip is looked for by itself, once; only then is somebody asked where it lies. */
function useFindsItself(
  photo: Photo | null,
  { strip, askAgain }: Readonly<{ strip: PhotoStrip | null; askAgain: () => void }>,
): void {
  const isAsked = useRef(false)
  useEffect(() => {
    const isNew = photo?.status === 'seen' && photo.asked === null && photo.message === null
    if (!isNew || strip === null || isAsked.current) return
    isAsked.current = true
    const path = photoAskPath(photo.id)
    void ask({ path, method: 'POST', body: { strip } }).then(askAgain)
  })
}

/** What it told is filled in once; what somebody corrects then stays. */
function useFilledIn(
  photo: Photo | null,
  { draft, onDraft }: Pick<ByPhotoProps, 'draft' | 'onDraft'>,
): void {
  const filled = useRef<string | null>(null)
  useEffect(() => {
    const test = photo?.test ?? null
    if (photo?.status === 'reading' || photo?.status === 'seen') filled.current = null
    if (test === null || filled.current === JSON.stringify(test)) return
    filled.current = JSON.stringify(test)
    onDraft(proposed(test, draft))
  })
}
