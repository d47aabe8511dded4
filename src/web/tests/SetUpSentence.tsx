import type { ReactNode } from 'react'
import type { Tests } from '../../api/tests.ts'
import { fabricChoices } from '../fabricText.ts'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import type { SetUp } from './setUp.ts'
import { TESTS_WORDS } from './testsWords.ts'

/** Fabric, bucket and lamp as blanks of a sentence. */
export function SetUpBlanks({
  tests,
  onChange,
}: Readonly<{
  tests: Pick<Tests, 'asked' | 'choices'>
  onChange: (changed: Partial<SetUp>) => void
}>): ReactNode {
  const { asked, choices } = tests
  const { labels } = TESTS_WORDS
  const units = useUnits()
  return (
    <>
      <Blank
        label={labels.fabric}
        value={asked.fabric.id}
        choices={fabricChoices(choices.fabrics, units)}
        onChoice={(fabric) => onChange({ fabric })}
      />{' '}
      {choices.batches.length > 0 && (
        <>
          {TESTS_WORDS.with}{' '}
          <Blank
            label={labels.batch}
            value={asked.batch?.id ?? ''}
            choices={choices.batches}
            onChoice={(batch) => onChange({ batch })}
          />{' '}
        </>
      )}
      {TESTS_WORDS.under}{' '}
      <Blank
        label={labels.unit}
        value={asked.unit.id}
        choices={choices.units}
        onChoice={(unit) => onChange({ unit })}
      />
    </>
  )
}
