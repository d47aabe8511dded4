import type { ReactNode } from 'react'
import { Following } from '../clocks/Following.tsx'
import { dayText } from '../figures.ts'
import { useMe } from '../people/me.tsx'
import { Link, ROUTES } from '../router.tsx'
import { useShop } from '../shop.tsx'
import { type Drawing, Icon } from '../signs/icons.tsx'
import { Tape } from '../signs/Tape.tsx'
import { ONE_COLUMN, useMedia } from '../useMedia.ts'
import { FRAME_WORDS, SIGN_WORDS } from '../words.ts'
import './doors.css'
import './frame.css'
import { Switches } from './Switches.tsx'

/** The five doors. */
export type Door = keyof typeof FRAME_WORDS.doors

const DOORS: readonly Readonly<{ door: Door; drawing: Drawing }>[] = [
  { door: 'light', drawing: 'light' },
  { door: 'tickets', drawing: 'tickets' },
  { door: 'day', drawing: 'day' },
  { door: 'tests', drawing: 'tests' },
  { door: 'shop', drawing: 'shop' },
]

/** Narrower than this a whole tape leaves no room in the head for doors, switches and a name. */
const SHORT_TAPE = '(max-width: 73.99rem)'

/** What stands round every page: the name, the doors, the tape, the switches. */
export function Frame({
  door,
  children,
}: Readonly<{ door: Door | null; children: ReactNode }>): ReactNode {
  const oneColumn = useMedia(ONE_COLUMN)
  const isShort = useMedia(SHORT_TAPE)
  return (
    <div className="room">
      <a className="skip" href="#page">
        {FRAME_WORDS.toPage}
      </a>
      <header className="head">
        <Link to={ROUTES.light} className="name">
          <Mark />
          {FRAME_WORDS.name}
        </Link>
        {!oneColumn && <Doors door={door} drawings={false} />}
        <ShopTape short={isShort} />
        {!oneColumn && <Switches />}
        <SignedIn />
      </header>
      <Following />
      <main id="page" tabIndex={-1}>
        {children}
      </main>
      {oneColumn && (
        <footer className="foot">
          <DemoLine />
          <Switches />
          <ToSigns />
        </footer>
      )}
      {oneColumn && <Doors door={door} drawings />}
      <Printed />
    </div>
  )
}

function Doors({ door, drawings }: Readonly<{ door: Door | null; drawings: boolean }>): ReactNode {
  return (
    <nav
      className={drawings ? 'doors doors-low' : 'doors doors-high'}
      aria-label={FRAME_WORDS.doorsLabel}
    >
      {DOORS.map(({ door: to, drawing }) => (
        <Link key={to} to={ROUTES[to]} className="door" current={to === door}>
          {drawings && <Icon of={drawing} size={22} />}
          <span className="door-word" data-word={FRAME_WORDS.doors[to]}>
            {FRAME_WORDS.doors[to]}
          </span>
        </Link>
      ))}
    </nav>
  )
}

/** A frame with yellow mesh. */
function Mark(): ReactNode {
  return (
    <svg className="mark" viewBox="0 0 32 32" aria-hidden="true">
      <rect className="mark-wood" x={1} y={1} width={30} height={30} />
      <path d="M1 1 8 8M31 1 24 8M1 31 8 24M31 31 24 24" />
      <rect className="mark-mesh" x={8} y={8} width={16} height={16} />
    </svg>
  )
}

/** On a phone the tape is short, and this line says the rest. */
function DemoLine(): ReactNode {
  const { answer } = useShop().asked
  return answer?.state === 'demo' && <p className="small">{FRAME_WORDS.demoLine(answer.name)}</p>
}

/** Who is signed in here; nothing in an open shop where nobody is. */
function SignedIn(): ReactNode {
  const { me } = useMe()
  if (me === null || (me.isOpen && me.person === null)) return null
  return (
    <Link to={ROUTES.signIn} className="switch signed-in">
      <span>{me.person === null ? FRAME_WORDS.signIn : me.person.name}</span>
    </Link>
  )
}

function ToSigns(): ReactNode {
  return (
    <Link to={ROUTES.signs} className="switch">
      <span>{SIGN_WORDS.link}</span>
    </Link>
  )
}

function ShopTape({ short }: Readonly<{ short: boolean }>): ReactNode {
  const { answer } = useShop().asked
  if (answer === null) return null
  switch (answer.state) {
    case 'none':
      return <Tape>{FRAME_WORDS.noShop}</Tape>
    case 'demo':
      return (
        <Tape rest={short ? FRAME_WORDS.demoRest(answer.name) : null}>
          {short ? FRAME_WORDS.demoShort : FRAME_WORDS.demo(answer.name)}
        </Tape>
      )
    case 'own':
      return (
        <p className="shop-name" title={answer.name}>
          {answer.name}
        </p>
      )
  }
}

/** Only on paper: when it was printed. */
function Printed(): ReactNode {
  return <p className="printed">{FRAME_WORDS.printed(dayText(new Date()))}</p>
}
