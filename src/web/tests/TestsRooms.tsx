import type { ReactNode } from 'react'
import type { TESTS_TITLES } from '../words.ts'
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
