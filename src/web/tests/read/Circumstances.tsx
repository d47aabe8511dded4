import type { ReactNode } from 'react'
import type { Choices } from '../../../api/shop.ts'
import type { Tests } from '../../../api/tests.ts'
import { fabricChoices } from '../../fabricText.ts'
import { useUnits } from '../../shop.tsx'
import { Blank } from '../../signs/Blank.tsx'
import { TESTS_WORDS } from '../testsWords.ts'
import type { Draft, Kind, Wrong } from './draft.ts'
import { READ_WORDS } from './readWords.ts'

const FROMS = (['hot', 'cold'] as const).map((id) => ({ id, name: READ_WORDS.froms[id] }))

/** On which screen, or on what fabric, and under which lamp, as a sentence of blanks. */
export function Circumstances({
  kind,
  draft,
  wrong,
  choices,
  setUps,
  countsIn,
  onDraft,
}: Readonly<{
  kind: Kind
  draft: Draft
  wrong: Wrong
  choices: Choices
  setUps: Tests['choices'] | null
  countsIn: Tests['countsIn']
  onDraft: (changed: Partial<Draft>) => void
}>): ReactNode {
  const { sentence } = READ_WORDS
  const { labels } = TESTS_WORDS
  const units = useUnits()
  const screens = choices.screens.map((screen) => ({ ...screen, not: null })) // torn since: it was read before
  return (
    <p className="tests-sentence">
      {kind !== 'wedge' && (
        <>
          {sentence.of}{' '}
          <Blank
            label={READ_WORDS.medium}
            value={draft.medium}
            choices={choices.media}
            open={READ_WORDS.someMedium}
            onChoice={(medium) => onDraft({ medium })}
          />{' '}
          {sentence.drawnOn}{' '}
          <Blank
            label={READ_WORDS.base}
            value={draft.base}
            choices={choices.bases}
            onChoice={(base) => onDraft({ base })}
          />{' '}
        </>
      )}
      {kind === 'wedge' ? READ_WORDS.on : READ_WORDS.onBase}{' '}
      <Blank
        label={READ_WORDS.screen}
        value={draft.screen}
        choices={fabricChoices(screens, units)}
        open={READ_WORDS.anyScreen}
        onChoice={(screen) => onDraft({ screen })}
      />{' '}
      {draft.screen === '' && setUps !== null && (
        <>
          {READ_WORDS.of}{' '}
          <Blank
            label={labels.fabric}
            value={draft.fabric}
            choices={fabricChoices(setUps.fabrics, units)}
            onChoice={(fabric) => onDraft({ fabric })}
          />{' '}
          {setUps.batches.length > 0 && (
            <>
              {sentence.with}{' '}
              <Blank
                label={labels.batch}
                value={draft.batch}
                choices={setUps.batches}
                onChoice={(batch) => onDraft({ batch })}
              />{' '}
            </>
          )}
        </>
      )}
      {sentence.under}{' '}
      <Blank
        label={labels.unit}
        value={draft.unit}
        choices={choices.units}
        onChoice={(unit) => onDraft({ unit, place: null })}
      />
      {countsIn === 'seconds' && (
        <>
          {sentence.lit}{' '}
          <Blank
            label={READ_WORDS.lit}
            value={draft.from}
            choices={FROMS}
            onChoice={(id) => onDraft({ from: id === 'cold' ? 'cold' : 'hot' })}
          />
        </>
      )}
      {sentence.dot}
      {wrong['medium'] !== undefined && <span className="blank-wrong">{wrong['medium']}</span>}
    </p>
  )
}
