import type { ReactNode } from 'react'
import { FILM_WORDS } from './filmWords.ts'

/** What the picture's signs mean; each drawn as it is painted. */
export function Signs(): ReactNode {
  const { opens, doubt, shut, loose } = FILM_WORDS.signs
  return (
    <ul className="film-signs">
      <Sign word={opens}>
        <path className="sign-ink" d={STROKE} />
      </Sign>
      <Sign word={doubt}>
        <path className="sign-cut" d={THREADS} />
      </Sign>
      <Sign word={shut}>
        <path className="sign-outline" d={STROKE} />
      </Sign>
      <Sign word={loose}>
        <path className="sign-loose" d="M4 1V15M11 1V15M18 1V15M25 1V15M32 1V15" />
      </Sign>
    </ul>
  )
}

const STROKE = 'M2 6C9 3 16 3 22 4.500S31 5 34 4V11C29 13 24 12 18 11S8 11 2 13Z'
const THREADS =
  'M2 13 5 5M7 12 11 4M12 11.500 16 3.500M17 11.500 21 4M22 12 26 4.500M27 12.500 31 4.500'

function Sign({ word, children }: Readonly<{ word: string; children: ReactNode }>): ReactNode {
  return (
    <li>
      <svg viewBox="0 0 36 16" width={36} height={16} aria-hidden="true">
        {children}
      </svg>
      {word}
    </li>
  )
}
