import type { ReactNode } from 'react'
import { Link, ROUTES } from '../router.tsx'
import { useShop } from '../shop.tsx'
import { FIRST_WORDS, TESTS_TITLES } from '../words.ts'
import { EvennessPage } from './evenness/EvennessPage.tsx'
import { LampPage } from './lamp/LampPage.tsx'
import { NotesPage } from './notes/NotesPage.tsx'
import { ReadingsPage } from './ReadingsPage.tsx'
import { ReadPage } from './read/ReadPage.tsx'
import { StripPage } from './strip/StripPage.tsx'
import { TestsPage } from './TestsPage.tsx'

export type TestsRoom = keyof typeof TESTS_TITLES

/** The rooms behind the door Tests. */
export function TestsRooms({ room }: Readonly<{ room: TestsRoom }>): ReactNode {
  const { answer } = useShop().asked
  if (answer === null || answer.state === 'none') return <NoShop room={room} />
  switch (room) {
    case 'tests':
      return <TestsPage />
    case 'strip':
      return <StripPage />
    case 'read':
      return <ReadPage />
    case 'lamp':
      return <LampPage />
    case 'evenness':
      return <EvennessPage />
    case 'notes':
      return <NotesPage />
    case 'readings':
      return <ReadingsPage />
  }
}

/** Before there is a shop: what will stand here, and the one act that fills it. */
function NoShop({ room }: Readonly<{ room: TestsRoom }>): ReactNode {
  return (
    <div className="not-built">
      <h1>{TESTS_TITLES[room]}</h1>
      <p>{NO_SHOP}</p>
      <p>
        <Link to={ROUTES.light} className="second-act">
          <span>{FIRST_WORDS.title}</span>
        </Link>
      </p>
    </div>
  )
}

const NO_SHOP =
  'What a shop believes of its doses will stand here. There is no shop yet: five facts are enough for one.'
