import { type ReactNode, useId, useState } from 'react'
import { doseText } from '../figures.ts'
import { Link, ROUTES } from '../router.tsx'
import { Button } from '../signs/Button.tsx'
import { FILM_WORDS } from './filmWords.ts'

/** The one thing to do next: this dose, set by hand. */
export function UseDose({
  doseLu,
  unitWord,
}: Readonly<{ doseLu: number; unitWord: string }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const id = useId()
  return (
    <div className="film-acts">
      <div className="film-acts-row">
        <Button onPress={() => setOpen(!isOpen)} expanded={isOpen} controls={id}>
          {FILM_WORDS.use(doseText(doseLu))}
        </Button>
        <Link to={ROUTES.upload} className="second-act">
          <span>{FILM_WORDS.darker}</span>
        </Link>
      </div>
      <div id={id} className="by-hand" hidden={!isOpen}>
        <p>{FILM_WORDS.byHand(doseText(doseLu), unitWord)}</p>
        <p>{FILM_WORDS.cautionLid}</p>
        <p>{FILM_WORDS.cautionLamp}</p>
      </div>
    </div>
  )
}
