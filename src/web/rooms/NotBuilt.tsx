import type { ReactNode } from 'react'
import { Link, ROUTES } from '../router.tsx'
import { FRAME_WORDS, ROOM_WORDS } from '../words.ts'
import './rooms.css'

export type Room = Exclude<keyof typeof ROOM_WORDS, 'toLight' | 'day'>

/** A door whose room is not built yet: one sentence, and what works instead. */
export function NotBuilt({ room }: Readonly<{ room: Room }>): ReactNode {
  const { title, notYet, instead } = ROOM_WORDS[room]
  return (
    <div className="not-built">
      <h1>{title}</h1>
      <p>{notYet}</p>
      <p>{instead}</p>
      <p>
        <ToLight />
      </p>
    </div>
  )
}

export function Nowhere(): ReactNode {
  return (
    <div className="not-built">
      <h1>{FRAME_WORDS.noSuchPage}</h1>
      <p>{FRAME_WORDS.noSuchPageMore}</p>
      <p>
        <ToLight />
      </p>
    </div>
  )
}

function ToLight(): ReactNode {
  return (
    <Link to={ROUTES.light} className="second-act">
      <span>{ROOM_WORDS.toLight}</span>
    </Link>
  )
}
