import { type ReactNode, useState } from 'react'
import { photoAskPath } from '../../../api/paths.ts'
import type { Photo, PhotoAsk } from '../../../api/photos.ts'
import { type Corners, firstCorners, goRound } from '../../photo/corners.ts'
import { PhotoPlaces } from '../../photo/PhotoPlaces.tsx'
import { PHOTO_WORDS } from '../../photo/photoWords.ts'
import { Button, SecondAct } from '../../signs/Button.tsx'
import { useSending } from '../useSending.ts'
import { BY_PHOTO_WORDS } from './byPhotoWords.ts'
import { firstWedgeCorners } from './proposal.ts'

/** The corners of a wedge or of a strip's bands, shown by hand. */
export function WhereItLies({
  kind,
  photo,
  where,
  another,
  onAsked,
}: Readonly<{
  kind: 'wedge' | 'strip'
  photo: Photo
  /** What is asked beside the corners; null while it is not all there. */
  where: Pick<PhotoAsk, 'strip' | 'wedgeDensities'> | null
  another: ReactNode
  onAsked: () => void
}>): ReactNode {
  const { preview, widthPx, heightPx, asked, name, message } = photo
  const size = { widthPx: widthPx ?? 1, heightPx: heightPx ?? 1 }
  const [corners, setCorners] = useState<Corners>(
    () => asked?.corners ?? (kind === 'wedge' ? firstWedgeCorners : firstCorners)(size),
  )
  const sending = useSending<Photo>()
  const isRound = goRound(corners)
  const read = async (by: Pick<PhotoAsk, 'corners'>): Promise<void> => {
    if (where === null) return
    const body = { ...where, ...by }
    const path = photoAskPath(photo.id)
    if ((await sending.send({ path, method: 'POST', body })) !== null) onAsked()
  }
  if (preview === null) return null
  return (
    <div className="by-photo-where">
      {message !== null && (
        <p className="photo-refused" role="alert">
          {message}
        </p>
      )}
      <p className="how">{BY_PHOTO_WORDS.where[kind]}</p>
      <PhotoPlaces
        photo={{ ...size, preview, name }}
        corners={corners}
        ends={null}
        onCorners={setCorners}
        onEnds={() => undefined}
      />
      <p className="said" aria-live="polite">
        {!isRound && PHOTO_WORDS.crossed}
        {isRound && (where === null ? BY_PHOTO_WORDS.dosesFirst : (sending.message ?? ''))}
      </p>
      <div className="photo-acts">
        <Button
          busy={sending.isBusy || where === null || !isRound}
          onPress={() => isRound && void read({ corners: [...corners] })}
        >
          {BY_PHOTO_WORDS.read}
        </Button>
        {kind === 'strip' && (
          <SecondAct onPress={() => void read({})}>{BY_PHOTO_WORDS.lookAgain}</SecondAct>
        )}
        {another}
      </div>
    </div>
  )
}
