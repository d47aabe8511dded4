import { type ReactNode, useState } from 'react'
import { photoAskPath } from '../../api/paths.ts'
import type { Photo } from '../../api/photos.ts'
import { useUnits } from '../shop.tsx'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { Button } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { type Corners, type Ends, firstCorners, firstEnds, goRound } from './corners.ts'
import { PhotoPlaces } from './PhotoPlaces.tsx'
import {
  blanksOf,
  OPEN_BLANKS,
  type PhotoBlanks,
  photoAskOf,
  wrongLength,
  wrongNumber,
} from './photoAsked.ts'
import { PHOTO_WORDS } from './photoWords.ts'

export type PhotoWhereProps = Readonly<{
  photo: Photo
  another: ReactNode
  /** The photo is being read as it was said. */
  onAsked: () => void
}>

/** Where the sheet and the wedge lie in a photo, shown by hand. */
export function PhotoWhere({ photo, another, onAsked }: PhotoWhereProps): ReactNode {
  const { subject, preview, widthPx, heightPx, reading, asked, name, message } = photo
  const units = useUnits()
  const size = { widthPx: widthPx ?? 1, heightPx: heightPx ?? 1 }
  const [corners, setCorners] = useState<Corners>(
    () => reading?.corners ?? asked?.corners ?? firstCorners(size),
  )
  const [ends, setEnds] = useState<Ends>(() => reading?.wedge ?? asked?.wedge ?? firstEnds(size))
  const [blanks, setBlanks] = useState<PhotoBlanks>(() => ({
    ...OPEN_BLANKS,
    ...blanksOf(asked, units),
  }))
  const sending = useSending<Photo>()
  const isRound = goRound(corners)
  const isHere = blanks.wedge === 'here'
  const isSized =
    subject === 'screen' || (blanks.width.trim() !== '' && blanks.height.trim() !== '')
  const question = photoAskOf(blanks, { corners, ends: isHere ? ends : null, units })
  const read = async (): Promise<void> => {
    if (question === null || !isRound || !isSized) return
    const path = photoAskPath(photo.id)
    if ((await sending.send({ path, method: 'POST', body: question })) !== null) onAsked()
  }
  if (preview === null) return null
  return (
    <div className="photo-halves">
      <div className="photo-head">
        <h1>{PHOTO_WORDS.whereTitle[subject === 'film' ? 'film' : 'screen']}</h1>
        {message !== null && (
          <p className="photo-refused" role="alert">
            {message}
          </p>
        )}
      </div>
      <PhotoPlaces
        photo={{ ...size, preview, name }}
        corners={corners}
        ends={isHere ? ends : null}
        onCorners={setCorners}
        onEnds={setEnds}
      />
      <div className="photo-words">
        {subject === 'film' && <Facts blanks={blanks} onBlanks={setBlanks} />}
        <p className="said" aria-live="polite">
          {!isRound && PHOTO_WORDS.crossed}
          {isRound && (isSized ? (sending.message ?? '') : PHOTO_WORDS.sizeFirst)}
        </p>
        <Button
          busy={sending.isBusy || question === null || !isRound || !isSized}
          onPress={() => void read()}
        >
          {reading === null ? PHOTO_WORDS.read : PHOTO_WORDS.readAgain}
        </Button>
        {another}
      </div>
    </div>
  )
}

const WEDGES = [
  { id: 'none', name: PHOTO_WORDS.wedge.none },
  { id: 'here', name: PHOTO_WORDS.wedge.here },
]

/** What a photo does not say of itself, as a sentence of blanks. */
function Facts({
  blanks,
  onBlanks,
}: Readonly<{ blanks: PhotoBlanks; onBlanks: (blanks: PhotoBlanks) => void }>): ReactNode {
  const units = useUnits()
  const { size, wedge } = PHOTO_WORDS
  const length = (name: 'width' | 'height'): ReactNode => (
    <BlankEntry
      label={size[name]}
      value={blanks[name]}
      open={size.open}
      longest={9}
      numeric
      wrong={wrongLength(name, blanks[name], units)}
      onEntry={(written) => onBlanks({ ...blanks, [name]: written })}
    />
  )
  const number = (name: 'first' | 'increment' | 'steps'): ReactNode => (
    <BlankEntry
      label={wedge[`${name}Label`]}
      value={blanks[name]}
      open="?"
      longest={5}
      numeric
      wrong={wrongNumber(name, blanks[name])}
      onEntry={(written) => onBlanks({ ...blanks, [name]: written })}
    />
  )
  return (
    <p className="sentence">
      {size.the} {length('width')} {size.by} {length('height')} {PHOTO_WORDS.size.units[units]}{' '}
      {size.end} {wedge.is}{' '}
      <Blank
        label={wedge.label}
        value={blanks.wedge}
        choices={WEDGES}
        onChoice={(id) => onBlanks({ ...blanks, wedge: id === 'here' ? 'here' : 'none' })}
      />
      {blanks.wedge === 'here' && (
        <>
          {wedge.first} {number('first')}
          {wedge.each} {number('steps')} {wedge.steps} {number('increment')} {wedge.more}
        </>
      )}
      {blanks.wedge === 'none' && '.'}
    </p>
  )
}
