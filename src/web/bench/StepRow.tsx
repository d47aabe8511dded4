import { type ReactNode, useState } from 'react'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import type { StepDraft } from './stepDraft.ts'
import { STEPS_WORDS } from './stepsWords.ts'

const TITLE = 24
const LINE = 64

/** One step of the list: as it reads, and how it is changed. */
export function StepRow({
  number,
  draft,
  isKept,
  onChange,
  onOut,
  onAdd,
}: Readonly<{
  number: number
  draft: StepDraft
  isKept: boolean
  onChange: (draft: StepDraft) => void
  onOut: () => void
  onAdd: () => void
}>): ReactNode {
  const { title, first, second, clock } = draft
  const [isOpen, setOpen] = useState(title === '')
  const entry = (what: 'title' | 'first' | 'second' | 'clock') => (written: string) =>
    onChange({ ...draft, [what]: written })
  return (
    <li>
      <h2>{`${number}  ${title === '' ? STEPS_WORDS.own : title}`}</h2>
      {[first, second, clock === '' ? '' : STEPS_WORDS.clockSaid(clock)]
        .filter((line) => line !== '')
        .map((line) => (
          <p key={line}>{line}</p>
        ))}
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        <span aria-hidden="true">{STEPS_WORDS.changeWord}</span>
        <span className="unseen">{STEPS_WORDS.change(title === '' ? STEPS_WORDS.own : title)}</span>
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <Entry
            label={STEPS_WORDS.name}
            value={title}
            example={STEPS_WORDS.example}
            longest={TITLE}
            onEntry={entry('title')}
          />
          <Entry label={STEPS_WORDS.first} value={first} longest={LINE} onEntry={entry('first')} />
          <Entry
            label={STEPS_WORDS.second}
            value={second}
            longest={LINE}
            onEntry={entry('second')}
          />
          {clock !== '' && (
            <Entry
              label={STEPS_WORDS.seconds}
              value={clock}
              unit={STEPS_WORDS.secondsUnit}
              figures="whole"
              onEntry={(written) => {
                if (written !== '') entry('clock')(written)
              }}
            />
          )}
          {isKept && <p className="small">{STEPS_WORDS.kept}</p>}
          <div className="entry-acts">
            <SecondAct onPress={onAdd}>{STEPS_WORDS.addAfter}</SecondAct>
            {!isKept && <SecondAct onPress={onOut}>{STEPS_WORDS.takeOut}</SecondAct>}
          </div>
        </div>
      )}
    </li>
  )
}
