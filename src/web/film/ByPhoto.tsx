import { type ReactNode, useState } from 'react'
import type { Film, FilmByPhoto, FilmChange } from '../../api/films.ts'
import { filmPath, PATHS } from '../../api/paths.ts'
import type { Choices } from '../../api/shop.ts'
import { ask } from '../ask.ts'
import { Blank } from '../signs/Blank.tsx'
import type { Units } from '../signs/Ruler.tsx'
import { useAsked } from '../useAsked.ts'
import { FRAME_WORDS } from '../words.ts'
import './byPhoto.css'
import { FILM_WORDS } from './filmWords.ts'
import { lengthText } from './findingSays.ts'

const CHOICES = { path: PATHS.choices }

/** How far a film read from a photo can be believed, and what it was made with, which can be changed. */
export function ByPhoto({
  film,
  told,
  units,
  onChanged,
}: Readonly<{
  film: Film
  told: FilmByPhoto
  units: Units
  onChanged: () => void
}>): ReactNode {
  const [choices] = useAsked<Choices>(CHOICES)
  const [trouble, setTrouble] = useState<string | null>(null)
  const media = choices.answer?.media ?? []
  const change = async (medium: string): Promise<void> => {
    setTrouble(null)
    const body: FilmChange = { medium }
    const reply = await ask<Film>({ path: filmPath(film.id), method: 'PATCH', body })
    if (reply.kind === 'answer') onChanged()
    else setTrouble(reply.kind === 'refused' ? reply.message : FRAME_WORDS.noConnection)
  }
  const { densitySd, densityRange, smallestLineUm, wedge, looksLike } = told
  return (
    <div className="film-photo">
      {looksLike !== null && <p>{looksLike.says}</p>}
      {media.length > 0 && (
        <p className="sentence">
          {FILM_WORDS.madeWith}{' '}
          <Blank
            label={FILM_WORDS.madeWithLabel}
            value={film.medium ?? ''}
            choices={media}
            open={FILM_WORDS.madeWithOpen}
            onChoice={(medium) => void change(medium)}
          />
          .
        </p>
      )}
      {trouble !== null && <p role="alert">{trouble}</p>}
      <p className="small">
        {FILM_WORDS.byPhoto(densitySd.toFixed(2), densityRange.high.toFixed(1))}{' '}
        {wedge ? FILM_WORDS.byPhotoWedge : FILM_WORDS.byPhotoNoWedge}{' '}
        {FILM_WORDS.byPhotoLine(lengthText(smallestLineUm / 1000, units))}
      </p>
    </div>
  )
}
