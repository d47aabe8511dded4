import { type ReactNode, useState } from 'react'
import type { Film, FilmChange } from '../../api/films.ts'
import { filmPath } from '../../api/paths.ts'
import { ask } from '../ask.ts'
import { SecondAct } from '../signs/Button.tsx'
import type { Units } from '../signs/Ruler.tsx'
import { FRAME_WORDS } from '../words.ts'
import { FILM_WORDS } from './filmWords.ts'
import { lengthText } from './findingSays.ts'

/** Faint lines: asked once whether they print; what was answered stands in a sentence. */
export function Underdrawing({
  film,
  units,
  onAnswered,
}: Readonly<{ film: Film; units: Units; onAnswered: () => void }>): ReactNode {
  const [isAsking, setAsking] = useState(false)
  const [trouble, setTrouble] = useState<string | null>(null)
  const { underdrawing } = film
  if (underdrawing === null) return null
  const answer = async (underdrawn: 'prints' | 'stays shut'): Promise<void> => {
    setTrouble(null)
    const body: FilmChange = { underdrawing: underdrawn }
    const reply = await ask<Film>({ path: filmPath(film.id), method: 'PATCH', body })
    if (reply.kind === 'answer') {
      setAsking(false)
      onAnswered()
    } else {
      setTrouble(reply.kind === 'refused' ? reply.message : FRAME_WORDS.noConnection)
    }
  }
  if (underdrawing.answer !== null && !isAsking) {
    return (
      <p className="faint-answered">
        {FILM_WORDS.faintAsked[underdrawing.answer]}{' '}
        <button type="button" className="word-link" onClick={() => setAsking(true)}>
          {FILM_WORDS.faintAgain}
        </button>
      </p>
    )
  }
  return (
    <div className="faint">
      <p>
        {FILM_WORDS.faint(
          lengthText(underdrawing.lengthMm, units),
          underdrawing.paleBelow.toFixed(2),
        )}
      </p>
      <div className="faint-acts">
        <SecondAct onPress={() => void answer('stays shut')}>{FILM_WORDS.faintShut}</SecondAct>
        <SecondAct onPress={() => void answer('prints')}>{FILM_WORDS.faintPrints}</SecondAct>
      </div>
      {trouble !== null && <p role="alert">{trouble}</p>}
    </div>
  )
}
