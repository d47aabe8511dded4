import type { ReactNode } from 'react'
import { Link, ROUTES } from '../router.tsx'
import { FRAME_WORDS, ROOM_WORDS } from '../words.ts'
import './rooms.css'

/** An address that leads nowhere. */
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
