import type { ReactNode } from 'react'
import type { Tests } from '../../api/tests.ts'
import { doseText } from '../figures.ts'
import './beliefDose.css'
import { TESTS_WORDS } from './testsWords.ts'

/** A dose with its range and its word, or that there is none. */
export function BeliefDose({ belief }: Readonly<{ belief: Tests['media'][number] }>): ReactNode {
  const { dose, verdict, word } = belief
  const [value, low, high] = [doseText(dose.value), doseText(dose.low), doseText(dose.high)]
  if (verdict === 'no dose') {
    return (
      <span className="belief-none">
        <strong>{TESTS_WORDS.noDose}</strong> <span>{TESTS_WORDS.opensUpTo(value)}</span>
      </span>
    )
  }
  return (
    <>
      <strong className="belief-value">{value}</strong>{' '}
      <span className="belief-range">{TESTS_WORDS.range(low, high)}</span>{' '}
      <span className="belief-word">{word}</span>
    </>
  )
}
