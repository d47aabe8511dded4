import { type ReactNode, useState } from 'react'
import type { Film } from '../../api/films.ts'
import { PATHS, photoFilmPath } from '../../api/paths.ts'
import type { Photo, PhotoReading } from '../../api/photos.ts'
import type { Choices } from '../../api/shop.ts'
import { lengthText } from '../film/findingSays.ts'
import { filmRoute, useWay } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'
import { PHOTO_WORDS } from './photoWords.ts'

const CHOICES = { path: PATHS.choices }
const NO_MEDIA: Choices['media'] = []

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
  const [isRound, setRound] = useState(false)
  const [choices] = useAsked<Choices>(CHOICES)
  const media = choices.answer?.media ?? NO_MEDIA
  const [chosen, setChosen] = useState<string | null>(null)
  const [likeliest, other] = reading.looksLike?.media ?? []
  // between two that look alike nobody but a person chooses
  const told = other === undefined ? media.find(({ name }) => name === likeliest?.name) : undefined
  const medium = chosen ?? told?.id ?? ''
  const sending = useSending<Film>()
  const { widthMm, heightMm, densitySd, densityRange, smallestLineUm, warnings } = reading
  const become = async (): Promise<void> => {
    const film = await sending.send({
      path: photoFilmPath(photo.id),
      method: 'POST',
      body: { mirrored: isMirrored, upsideDown: isRound, ...(medium === '' ? {} : { medium }) },
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
        className={`photo-straight${isMirrored ? ' photo-turned' : ''}${isRound ? ' photo-round' : ''}`}
        src={reading.picture}
        alt={PHOTO_WORDS.straightened(photo.name, isMirrored, isRound)}
      />
      <div className="photo-words">
        {media.length > 0 && reading.looksLike !== null && (
          <div>
            <p>{reading.looksLike.says}</p>
            <p className="sentence">
              {PHOTO_WORDS.madeWith}{' '}
              <Blank
                label={PHOTO_WORDS.madeWithLabel}
                value={medium}
                choices={media}
                open={PHOTO_WORDS.madeWithOpen}
                onChoice={setChosen}
              />
              .
            </p>
            <p className="small">
              {medium === '' ? PHOTO_WORDS.madeWithChoose : PHOTO_WORDS.madeWithWhy}
            </p>
          </div>
        )}
        <div className="photo-acts">
          <Button busy={sending.isBusy} onPress={() => void become()}>
            {PHOTO_WORDS.mirroredYes}
          </Button>
          <SecondAct onPress={() => setMirrored(!isMirrored)}>
            {isMirrored ? PHOTO_WORDS.mirroredBack : PHOTO_WORDS.mirroredNo}
          </SecondAct>
          <SecondAct onPress={() => setRound(!isRound)}>{PHOTO_WORDS.upsideDown}</SecondAct>
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
