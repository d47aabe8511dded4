import { z } from 'zod'
import { KEY_LIKE } from './keys.ts'

const key = z.string().regex(/^[0-9A-Za-z-]{8,64}$/, KEY_LIKE)
const name = z.string().trim().min(1).max(80)
const minutes = z.number().min(0).max(1440)

/** One place of a class's way: so many screens at once, so many minutes each. */
export const dayStation = z.object({
  name,
  machines: z.number().int().min(1).max(50),
  minutes: z.number().min(1).max(600),
  /** Its person stays with the screen. */
  people: z.boolean(),
})
export type DayStation = z.infer<typeof dayStation>

export const dayPerson = z.object({
  name,
  screens: z.number().int().min(1).max(10),
  /** After the class began. */
  arriveMin: minutes,
})

/** A class to be planned. */
export const newDay = z
  .object({
    title: name,
    beginsAt: z.iso.datetime(),
    closesAt: z.iso.datetime(),
    people: z.array(dayPerson).min(1).max(60),
    /** In the order of the way; the last one leads to the press. */
    stations: z.array(dayStation).min(1).max(8),
    /** Where a screen that failed begins again, counted from 0. */
    againFrom: z.number().int().min(0).max(7),
  })
  .strict()
export type NewDay = z.infer<typeof newDay>

/** What happened meanwhile; its key was made on the device. */
export const newDayEvent = z.discriminatedUnion('kind', [
  z
    .object({ kind: z.literal('failed'), key, person: name, screen: z.number().int().min(1) })
    .strict(),
  z
    .object({
      kind: z.literal('late'),
      key,
      person: name,
      screen: z.number().int().min(1),
      minutes: z.number().min(1).max(600),
    })
    .strict(),
  z
    .object({
      kind: z.literal('done'),
      key,
      person: name,
      screen: z.number().int().min(1),
      station: name,
    })
    .strict(),
])
export type NewDayEvent = z.infer<typeof newDayEvent>

const task = z.object({
  person: z.string(),
  screen: z.number(),
  station: z.string(),
  machine: z.number(),
  startMin: z.number(),
  endMin: z.number(),
  again: z.number(),
  failed: z.boolean(),
})

/** Who is where, who is next, and when all are done; minutes count from `beginsAt`. */
export const day = z.object({
  kind: z.literal('day'),
  demo: z.boolean(),
  now: z.iso.datetime(),
  plan: z
    .object({
      id: z.string(),
      title: z.string(),
      beginsAt: z.iso.datetime(),
      closesAt: z.iso.datetime(),
      people: z.number(),
      screens: z.number(),
      stations: z.array(dayStation),
      againFrom: z.number(),
      tasks: z.array(task),
      finishMin: z.number(),
      /** When the last screen leaves the last place with somebody beside it. */
      lastAttendedMin: z.number(),
      proved: z.boolean(),
      withTwoMoreMin: z.number(),
      /** One more screen has to begin by then; null: it is too late. */
      lastStartMin: z.number().nullable(),
      /** What the last event moved. */
      moved: z.array(
        z.object({
          person: z.string(),
          station: z.string(),
          byMin: z.number(),
          startMin: z.number(),
        }),
      ),
    })
    .nullable(),
  /** What a new plan begins with. */
  usual: z.object({
    stations: z.array(dayStation),
    againFrom: z.number(),
    people: z.array(z.object({ name: z.string(), className: z.string().nullable() })),
  }),
  /** Screens whose time is over today. */
  due: z.array(
    z.object({ tag: z.string(), owner: z.string().nullable(), until: z.iso.datetime() }),
  ),
  /** What waits, in sentences. */
  waits: z.array(z.string()),
})
export type Day = z.infer<typeof day>
