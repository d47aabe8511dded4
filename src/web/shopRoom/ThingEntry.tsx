import { type ReactNode, useId, useState } from 'react'
import { type Path } from '../../api/paths.ts'
import type { NewThing, ThingKind, Things } from '../../api/things.ts'
import { FAR } from '../people/days.ts'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { FIELDS, type Field, SHOP_ROOM_WORDS } from './shopRoomWords.ts'
import { draftOf, thingOf, wrongIn } from './thingDraft.ts'

/** A thing of the room to write down or to change. */
export function ThingEntry({
  from,
  path,
  onKept,
  onLeave,
}: Readonly<{
  /** The thing as it is, or the kind of a new one. */
  from: NewThing | ThingKind
  path: Path<{ POST: Things }>
  onKept: () => void
  onLeave: () => void
}>): ReactNode {
  const [draft, setDraft] = useState(() => draftOf(from))
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<Things>()
  const wrong = isAsked ? wrongIn(draft) : []
  const { name, fields } = FIELDS[draft.kind]
  const keep = async (): Promise<void> => {
    setAsked(true)
    if (wrongIn(draft).length > 0 || sending.isBusy) return
    if ((await sending.send({ path, method: 'POST', body: thingOf(draft) })) !== null) onKept()
  }
  return (
    <div className="unfolded">
      <div className="entries">
        <Entry
          label={name}
          value={draft.name}
          longest={120}
          isWrong={wrong.includes('name')}
          onEntry={(value) => setDraft({ ...draft, name: value })}
        />
        {fields.map((field) => (
          <FieldEntry
            key={field.key}
            field={field}
            value={draft.fields[field.key] ?? ''}
            isWrong={wrong.includes(field.key)}
            onEntry={(value) =>
              setDraft({ ...draft, fields: { ...draft.fields, [field.key]: value } })
            }
          />
        ))}
      </div>
      {(wrong.length > 0 || sending.message !== null) && (
        <p role="alert" className="entry-wrong">
          {wrong.length > 0 ? SHOP_ROOM_WORDS.wrong : sending.message}
        </p>
      )}
      <div className="entry-acts">
        <Button busy={sending.isBusy} onPress={() => void keep()}>
          {SHOP_ROOM_WORDS.save}
        </Button>
        <SecondAct onPress={onLeave}>{SHOP_ROOM_WORDS.leave}</SecondAct>
      </div>
    </div>
  )
}

function FieldEntry({
  field,
  value,
  isWrong,
  onEntry,
}: Readonly<{
  field: Field
  value: string
  isWrong: boolean
  onEntry: (value: string) => void
}>): ReactNode {
  const { label, is, unit, choices = [] } = field
  switch (is) {
    case 'long':
      return <LongEntry label={label} value={value} isWrong={isWrong} onEntry={onEntry} />
    case 'choice':
      return (
        <p className="sentence">
          {`${label} `}
          <Blank
            label={label}
            value={value === '' ? (choices[0] ?? '') : value}
            choices={choices.map((name) => ({ id: name, name }))}
            onChoice={onEntry}
          />
        </p>
      )
    case 'day':
      return <DayEntry label={label} value={value} latest={FAR} onEntry={onEntry} />
    case 'text':
      return <Entry label={label} value={value} longest={80} isWrong={isWrong} onEntry={onEntry} />
    case 'number':
    case 'share':
      return (
        <Entry
          label={label}
          value={value}
          figures="decimal"
          {...(unit === undefined ? {} : { unit })}
          isWrong={isWrong}
          onEntry={onEntry}
        />
      )
  }
}

/** Several lines of text. */
export function LongEntry({
  label,
  value,
  isWrong,
  onEntry,
}: Readonly<{
  label: string
  value: string
  isWrong: boolean
  onEntry: (value: string) => void
}>): ReactNode {
  const id = useId()
  return (
    <div className="entry room-long">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={4}
        value={value}
        maxLength={2000}
        aria-invalid={isWrong}
        onChange={(event) => onEntry(event.target.value)}
      />
    </div>
  )
}
