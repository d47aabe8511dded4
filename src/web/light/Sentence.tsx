import type { ReactNode } from 'react'
import type { Choices } from '../../api/shop.ts'
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
  const { media, films, bases, screens, units } = choices
  const marked = (kind: 'medium' | 'film', list: Choices['media']) =>
    list.map((choice) => ({ ...choice, id: `${kind}:${choice.id}` }))
  const groups = [
    { name: LIGHT_WORDS.media, choices: marked('medium', media) },
    { name: LIGHT_WORDS.films, choices: marked('film', films) },
  ].filter((group) => group.choices.length > 0)
  return (
    <p className="sentence">
      {LIGHT_WORDS.for}{' '}
      <Blank
        label={LIGHT_WORDS.subject}
        value={`${blanks.subject.kind}:${blanks.subject.id}`}
        choices={[]}
        groups={groups}
        onChoice={(chosen) => {
          const [kind = '', ...id] = chosen.split(':')
          onChange({ subject: { kind: kind === 'film' ? 'film' : 'medium', id: id.join(':') } })
        }}
      />{' '}
      {LIGHT_WORDS.on}{' '}
      <Blank
        label={LIGHT_WORDS.base}
        value={blanks.base}
        choices={bases}
        onChoice={(base) => onChange({ base })}
      />{' '}
      {LIGHT_WORDS.on}{' '}
      <Blank
        label={LIGHT_WORDS.screen}
        value={blanks.screen}
        choices={screens}
        open={LIGHT_WORDS.whichScreen}
        onChoice={(screen) => onChange({ screen })}
      />{' '}
      {LIGHT_WORDS.under}{' '}
      <Blank
        label={LIGHT_WORDS.unit}
        value={blanks.unit}
        choices={units}
        onChoice={(unit) => onChange({ unit })}
      />{' '}
      {LIGHT_WORDS.today}
    </p>
  )
}
