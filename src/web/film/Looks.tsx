import { type ReactNode, useState } from 'react'
import { FILM_WORDS } from './filmWords.ts'
import type { Look } from './useCanvasPicture.ts'

const LOOKS: readonly Look[] = ['as drawn', 'what will open']

/** As drawn, what will open; as it will print is still to come and says so. */
export function Looks({
  look,
  onLook,
}: Readonly<{ look: Look; onLook: (look: Look) => void }>): ReactNode {
  const [isAsked, setAsked] = useState(false)
  return (
    <div className="looks" role="group" aria-label={FILM_WORDS.looksLabel}>
      {LOOKS.map((each) => (
        <button key={each} type="button" aria-pressed={each === look} onClick={() => onLook(each)}>
          <span>{FILM_WORDS.looks[each]}</span>
        </button>
      ))}
      <button
        type="button"
        className="look-later"
        aria-disabled="true"
        onClick={() => setAsked(true)}
      >
        <span>{FILM_WORDS.looks['as it will print']}</span>
      </button>
      <p className="looks-later" aria-live="polite">
        {isAsked && FILM_WORDS.printLater}
      </p>
    </div>
  )
}
