import { type ReactNode, useId } from 'react'
import './takePhoto.css'
import { PHOTO_WORDS } from './photoWords.ts'
import type { PhotoSending } from './useSendPhoto.ts'

/** Takes the photo with the device's own camera, or chooses one that is there. */
export function TakePhoto({
  onPhoto,
  sending,
  onStop,
  blocked = null,
}: Readonly<{
  onPhoto: (file: File) => void
  sending: PhotoSending
  onStop: () => void
  /** What is to be done first, in a sentence. */
  blocked?: string | null
}>): ReactNode {
  const isUnderWay = sending.state === 'sending'
  const why = useId()
  const input = { onPhoto, isShut: isUnderWay || blocked !== null, why }
  return (
    <div className="take">
      <div className="take-acts">
        <PhotoInput {...input} camera look="act take-act" words={PHOTO_WORDS.take} />
        <PhotoInput {...input} look="second-act take-choose" words={PHOTO_WORDS.choose} />
      </div>
      <div className="how-far" aria-live="polite" id={why}>
        {blocked !== null && <p>{blocked}</p>}
        {isUnderWay && <SentSoFar share={sending.share} />}
        {sending.state === 'refused' && <p className="photo-refused">{sending.message}</p>}
        {sending.state === 'cut' && <p className="photo-refused">{PHOTO_WORDS.cut}</p>}
      </div>
      {isUnderWay && (
        <button type="button" className="second-act" onClick={onStop}>
          <span>{PHOTO_WORDS.stop}</span>
        </button>
      )}
    </div>
  )
}

function SentSoFar({ share }: Readonly<{ share: number }>): ReactNode {
  const says = PHOTO_WORDS.sending(`${Math.floor(10 * share) * 10} %`)
  return (
    <>
      <p>{says}</p>
      <progress value={share} max={1} aria-label={says} />
    </>
  )
}

function PhotoInput({
  words,
  look,
  camera = false,
  isShut,
  why,
  onPhoto,
}: Readonly<{
  words: string
  look: string
  camera?: boolean
  isShut: boolean
  why: string
  onPhoto: (file: File) => void
}>): ReactNode {
  const id = useId()
  return (
    <label htmlFor={id} className={look} data-shut={isShut}>
      <span>{words}</span>
      <input
        id={id}
        type="file"
        accept="image/jpeg,image/png,image/webp,image/tiff"
        {...(camera ? { capture: 'environment' as const } : {})}
        disabled={isShut}
        aria-describedby={why}
        onChange={(event) => {
          const [file] = event.target.files ?? []
          if (file !== undefined) onPhoto(file)
          event.target.value = '' // the same photo may be chosen again
        }}
      />
    </label>
  )
}
