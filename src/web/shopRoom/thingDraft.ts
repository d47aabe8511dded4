import type { NewThing, ThingKind } from '../../api/things.ts'
import { FIELDS, type Field } from './shopRoomWords.ts'

/** A thing as it is written on the page. */
export type ThingDraft = Readonly<{
  kind: ThingKind
  name: string
  fields: Readonly<Record<string, string>>
  /** Facts that the page does not ask for, as they are. */
  kept: Readonly<Record<string, unknown>>
}>

export function draftOf(told: NewThing | ThingKind): ThingDraft {
  if (typeof told === 'string') return { kind: told, name: '', fields: {}, kept: KEPT[told] ?? {} }
  const facts = told.facts as Readonly<Record<string, unknown>>
  const asked = FIELDS[told.kind].fields
  const keys = new Set(asked.map(({ key }) => key))
  return {
    kind: told.kind,
    name: told.name,
    fields: Object.fromEntries(asked.map((field) => [field.key, written(facts[field.key], field)])),
    kept: Object.fromEntries(Object.entries(facts).filter(([key]) => !keys.has(key))),
  }
}

/** What is wrong, by its key; `name` for the name. */
export function wrongIn({ kind, name, fields }: ThingDraft): readonly string[] {
  const wrong = FIELDS[kind].fields.filter(
    (field) => valueOf(fields[field.key] ?? '', field) === WRONG,
  )
  return [...(name.trim() === '' ? ['name'] : []), ...wrong.map(({ key }) => key)]
}

/** As the contract has it; call it when nothing is wrong. */
export function thingOf({ kind, name, fields, kept }: ThingDraft): NewThing {
  const facts = Object.fromEntries(
    FIELDS[kind].fields.map((field) => [field.key, valueOf(fields[field.key] ?? '', field)]),
  )
  return { kind, name: name.trim(), facts: { ...kept, ...facts } } as unknown as NewThing
}

/** Facts that a new one begins with. */
const KEPT: Readonly<Partial<Record<ThingKind, Readonly<Record<string, unknown>>>>> = {
  leftover: { lab: null },
}
const WRONG = Symbol('wrong')

function written(value: unknown, { is }: Field): string {
  if (value === null || value === undefined) return ''
  return is === 'share'
    ? String(Math.round(Number(value) * 100))
    : typeof value === 'string'
      ? value
      : JSON.stringify(value)
}

function valueOf(text: string, { is, open = false, choices }: Field): unknown {
  const plain = text.trim()
  if (plain === '') return open ? null : is === 'choice' ? choices?.[0] : WRONG
  if (is === 'number' || is === 'share') {
    const value = Number(plain.replace(',', '.'))
    const most = is === 'share' ? 100 : 1e6
    if (!(value >= 0 && value <= most)) return WRONG
    return is === 'share' ? value / 100 : value
  }
  if (is === 'day' && !/^\d{4}-\d{2}-\d{2}$/.test(plain)) return WRONG
  return plain
}
