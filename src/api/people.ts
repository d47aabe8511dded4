import { z } from 'zod'
import { ACTS, MACHINES } from '../core/register/machines.ts'
import { day, named } from './tests.ts'

const shortName = z.string().trim().min(1).max(80)
const role = z.enum(['lead', 'technician', 'printer', 'guest'])
const machine = z.enum(MACHINES)

/** Who asks, and what the shop's door is like. */
export const me = z.object({
  kind: z.literal('me'),
  /** Nobody needs to sign in: no lead has a password. */
  isOpen: z.boolean(),
  person: named.extend({ role, className: z.string().nullable() }).nullable(),
  /** What may be done; in an open shop everything. */
  role: z.enum(['nobody', 'guest', 'printer', 'technician', 'lead']),
})
export type Me = z.infer<typeof me>

/** An act that somebody sets out to do, and on which unit where a lamp is lit. */
export const mayQuestion = z
  .object({ act: z.enum(ACTS), unit: z.string().max(80).optional() })
  .strict()
export const mayI = z.object({
  kind: z.literal('may'),
  /** What they were not shown and who can show it, in a sentence; null: they may. */
  says: z.string().nullable(),
})
export type MayI = z.infer<typeof mayI>

/** By the code of a card, or by name and password. */
export const signIn = z.union([
  z.object({ code: z.string().trim().min(4).max(40) }).strict(),
  z.object({ name: shortName, password: z.string().min(1).max(200) }).strict(),
])
export type SignIn = z.infer<typeof signIn>

const signOff = z.object({
  id: z.string(),
  machine,
  /** Of that one machine alone; null: of all there are. */
  unit: named.nullable(),
  givenBy: z.string().nullable(),
  givenOn: day,
  expiresOn: day.nullable(),
  isOver: z.boolean(),
})

const person = z.object({
  id: z.string(),
  name: z.string(),
  role,
  className: z.string().nullable(),
  hasPassword: z.boolean(),
  hasCard: z.boolean(),
  signOffs: z.array(signOff),
  /** How many screens are theirs. */
  screens: z.number(),
})
export type PersonTold = z.infer<typeof person>

export const people = z.object({
  kind: z.literal('people'),
  demo: z.boolean(),
  isOpen: z.boolean(),
  people: z.array(person),
  /** Who left, and the day after which what is known of them is taken out. */
  gone: z.array(
    z.object({ id: z.string(), name: z.string(), leftOn: day, deleteAfter: day.nullable() }),
  ),
  /** The shop's machines one by one, where there are several of a sort. */
  units: z.array(named.extend({ of: machine })),
  /** What has to be shown before it is used. */
  shownFirst: z.array(machine),
})
export type People = z.infer<typeof people>

export const newPerson = z
  .object({ name: shortName, role, className: shortName.optional() })
  .strict()
export type NewPerson = z.infer<typeof newPerson>

const password = z.string().min(10).max(200)

/** Something that is settled about somebody. */
export const personAct = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('about'),
      name: shortName.optional(),
      role: role.optional(),
      className: shortName.nullable().optional(),
    })
    .strict(),
  /** Null takes it away; without any lead's the shop is open to everybody. */
  z.object({ kind: z.literal('password'), password: password.nullable() }).strict(),
  z
    .object({
      kind: z.literal('sign off'),
      machine,
      unit: z.string().nullable(),
      expiresOn: day.nullable(),
    })
    .strict(),
  z.object({ kind: z.literal('withdraw'), signOff: z.string() }).strict(),
  z.object({ kind: z.literal('leaves'), deleteAfter: day.nullable() }).strict(),
  z.object({ kind: z.literal('is back') }).strict(),
])
export type PersonAct = z.infer<typeof personAct>

/** A whole class was shown something. */
export const classSignOff = z
  .object({
    className: shortName,
    machines: z.array(machine).min(1).max(MACHINES.length),
    expiresOn: day.nullable(),
  })
  .strict()
export type ClassSignOff = z.infer<typeof classSignOff>

export const newShownFirst = z.object({ machines: z.array(machine).max(MACHINES.length) }).strict()

/** A class list as a table: dry first, to see what it would do. */
export const newClass = z
  .object({
    text: z.string().min(1).max(400_000),
    className: shortName.optional(),
    dryRun: z.boolean(),
  })
  .strict()
export type NewClass = z.infer<typeof newClass>

export const classTold = z.object({
  kind: z.literal('class list'),
  dryRun: z.boolean(),
  /** Who comes in. */
  fresh: z.array(
    z.object({ line: z.number(), name: z.string(), className: z.string().nullable() }),
  ),
  /** Who is here already. */
  known: z.array(z.object({ line: z.number(), name: z.string() })),
  problems: z.array(z.object({ line: z.number(), says: z.string() })),
})
export type ClassTold = z.infer<typeof classTold>

export const newCards = z.object({ people: z.array(z.string()).min(1).max(200) }).strict()
/** Codes are told this once: what is kept does not say them again. */
export const cards = z.object({
  kind: z.literal('cards'),
  cards: z.array(named.extend({ code: z.string() })),
  /** The same to print: a PDF, base64. */
  pdf: z.string(),
})
export type Cards = z.infer<typeof cards>

/** A class goes: all of it leaves at once. */
export const endOfTerm = z.object({ className: shortName, deleteAfter: day.nullable() }).strict()

/** All that the shop knows of somebody's work. */
export const evidence = z.object({
  kind: z.literal('process evidence'),
  name: z.string(),
  role,
  className: z.string().nullable(),
  signOffs: z.array(signOff),
  tickets: z.array(
    z.object({
      code: z.string(),
      name: z.string(),
      openedOn: day,
      closedOn: day.nullable(),
      layers: z.array(
        z.object({
          shortName: z.string(),
          ink: z.string(),
          pulled: z.number(),
          spoiled: z.number(),
        }),
      ),
      log: z.array(z.object({ on: day, says: z.string() })),
    }),
  ),
  films: z.array(z.object({ name: z.string(), on: day })),
  readings: z.array(z.object({ on: day, says: z.string() })),
  screens: z.array(z.object({ tag: z.string(), on: day, says: z.string() })),
})
export type Evidence = z.infer<typeof evidence>
