import type { ReactNode } from 'react'
import type { Choices } from '../../api/shop.ts'
import { fabricChoices } from '../fabricText.ts'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import { LIGHT_WORDS } from '../words.ts'
import type { Blanks } from './lightQuestion.ts'

export type SentenceProps = Readonly<{
  choices: Choices
  blanks: Blanks
  onChange: (changed: Partial<Blanks>) => void
}>

/** The question as a sentence of blanks. */
export function Sentence({ choices, blanks, onChange }: SentenceProps): ReactNode {
  const { bases, screens, units } = choices
  const shown = useUnits()
  return (
    <p className="sentence">
      <span className="clause">
        {LIGHT_WORDS.for} <Subject choices={choices} blanks={blanks} onChange={onChange} />{' '}
        {LIGHT_WORDS.on}{' '}
        <Blank
          label={LIGHT_WORDS.base}
          value={blanks.base}
          choices={bases}
          onChoice={(base) => onChange({ base })}
        />
      </span>{' '}
      <span className="clause">
        {LIGHT_WORDS.on}{' '}
        <Blank
          label={LIGHT_WORDS.screen}
          value={blanks.screen}
          choices={fabricChoices(screens, shown)}
          open={LIGHT_WORDS.whichScreen}
          onChoice={(screen) => onChange({ screen })}
        />
      </span>{' '}
      <span className="clause">
        {LIGHT_WORDS.under}{' '}
        <Blank
          label={LIGHT_WORDS.unit}
          value={blanks.unit}
          choices={units}
          onChoice={(unit) => onChange({ unit, place: null })}
        />{' '}
        {LIGHT_WORDS.today}
      </span>
    </p>
  )
}

/** A medium or a film; both kinds have ids of their own. */
function Subject({ choices, blanks, onChange }: SentenceProps): ReactNode {
  const marked = (kind: 'medium' | 'film', list: Choices['media']): Choices['media'] =>
    list.map((choice) => ({ ...choice, id: `${kind}:${choice.id}` }))
  const groups = [
    { name: LIGHT_WORDS.media, choices: marked('medium', choices.media) },
    { name: LIGHT_WORDS.films, choices: marked('film', choices.films) },
  ].filter((group) => group.choices.length > 0)
  return (
    <Blank
      label={LIGHT_WORDS.subject}
      value={`${blanks.subject.kind}:${blanks.subject.id}`}
      choices={[]}
      groups={groups}
      onChoice={(chosen) => {
        const at = chosen.indexOf(':')
        const kind = chosen.slice(0, at) === 'film' ? 'film' : 'medium'
        onChange({ subject: { kind, id: chosen.slice(at + 1) } })
      }}
    />
  )
}
