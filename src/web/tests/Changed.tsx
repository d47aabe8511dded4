import type { ReactNode } from 'react'
import type { Tests } from '../../api/tests.ts'
import { dayWords } from './days.ts'
import { TESTS_WORDS } from './testsWords.ts'

/** What is not as it was, what most likely did it, and the one test that tells. */
export function Changed({ tests }: Readonly<{ tests: Tests }>): ReactNode {
  const { alarms, on } = tests
  const changed = alarms.some(({ headline }) => headline === tests.changed?.headline)
    ? null
    : tests.changed
  return (
    <section className="changed-words">
      <h2>{TESTS_WORDS.changed}</h2>
      {changed !== null && (
        <p>
          <strong>{changed.headline}</strong> {changed.sentence}
        </p>
      )}
      {alarms.map((alarm) => (
        <div key={`${alarm.since} ${alarm.headline}`} className="alarm">
          <p>
            <strong>{alarm.headline}</strong> {alarm.sentence}
          </p>
          <p className="small">
            {TESTS_WORDS.since(dayWords(alarm.since, on))}
            {alarm.others.length > 0 && `${TESTS_WORDS.orElse}${alarm.others.join('; ')}. `}
            {`${TESTS_WORDS.toTell}${alarm.test}`}
          </p>
        </div>
      ))}
      {changed === null && alarms.length === 0 && (
        <p>
          <strong>{TESTS_WORDS.unchanged}</strong>{' '}
          {tests.ground.readings.length === 0 ? TESTS_WORDS.unheard : TESTS_WORDS.unchangedMore}
        </p>
      )}
    </section>
  )
}
