import type { ReactNode } from 'react'
import { Link, ROUTES } from '../router.tsx'
import { TESTS_TITLES } from '../words.ts'
import { type SetUp, withWords } from './setUp.ts'

/** The way back to what is believed, with the same set-up. */
export function Back({ setUp }: Readonly<{ setUp: Partial<SetUp> }>): ReactNode {
  return (
    <Link to={withWords(ROUTES.tests, setUp)} className="second-act back">
      <span>{TESTS_TITLES.tests}</span>
    </Link>
  )
}
