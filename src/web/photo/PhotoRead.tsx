import { type ReactNode, useState } from 'react'
import type { Film } from '../../api/films.ts'
import { photoFilmPath } from '../../api/paths.ts'
import type { Photo, PhotoReading } from '../../api/photos.ts'
import { lengthText } from '../film/findingSays.ts'
import { filmRoute, useWay } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { PHOTO_WORDS } from './photoWords.ts'

/** What was read, and the one thing that a photo cannot tell. */
export function PhotoRead({
  photo,
  reading,
  another,
  onByHand,
}: Readonly<{
  photo: Photo
  reading: PhotoReading
  another: ReactNode
  onByHand: () => void
}>): ReactNode {
  const { go } = useWay()
  const units = useUnits()
  const [isMirrored, setMirrored] = useState(false)
  const sending = useSending<Film>()
  const { widthMm, heightMm, densitySd, densityRange, smallestLineUm, warnings } = reading
  const become = async (): Promise<void> => {
    const film = await sending.send({
      path: photoFilmPath(photo.id),
      method: 'POST',
      body: { mirrored: isMirrored },
    })
    if (film !== null) go(filmRoute(film.id))
  }
  return (
    <div className="photo-halves">
      <div className="photo-head">
        <h1>{PHOTO_WORDS.mirroredAsk}</h1>
        <p className="photo-lead">{PHOTO_WORDS.mirroredWhy}</p>
      </div>
      <img
        className={isMirrored ? 'photo-straight photo-turned' : 'photo-straight'}
        src={reading.picture}
        alt={PHOTO_WORDS.straightened(photo.name, isMirrored)}
      />
      <div className="photo-words">
        <div className="photo-acts">
          <Button busy={sending.isBusy} onPress={() => void become()}>
            {PHOTO_WORDS.mirroredYes}
          </Button>
          <SecondAct onPress={() => setMirrored(!isMirrored)}>
            {isMirrored ? PHOTO_WORDS.mirroredBack : PHOTO_WORDS.mirroredNo}
          </SecondAct>
        </div>
        <p className="said" aria-live="polite">
          {sending.isBusy ? PHOTO_WORDS.becoming : (sending.message ?? '')}
        </p>
        <div className="small photo-accuracy">
          <p>
            {PHOTO_WORDS.sizeSays(lengthText(widthMm, units), lengthText(heightMm, units))}{' '}
            {PHOTO_WORDS.accuracy(densitySd.toFixed(2), lengthText(smallestLineUm / 1000, units))}{' '}
            {PHOTO_WORDS.range(densityRange.low.toFixed(1), densityRange.high.toFixed(1))}
          </p>
          <p>{wedgeSays(reading)}</p>
          {warnings.map((warning) => (
            <p key={warning}>{warning}</p>
          ))}
        </div>
        <div className="photo-acts">
          <SecondAct onPress={onByHand}>{PHOTO_WORDS.wrongCorners}</SecondAct>
          {another}
        </div>
      </div>
    </div>
  )
}

function wedgeSays({ wedge, wedgeDensities }: PhotoReading): string {
  const { steps, firstDensity, increment } = wedgeDensities
  return wedge === null
    ? PHOTO_WORDS.noWedge
    : PHOTO_WORDS.wedgeSays(String(steps), String(firstDensity), String(increment))
}
