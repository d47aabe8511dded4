import { z } from 'zod'
import { LISTED_MACHINES } from '../core/register/machines.ts'

const name = z.string().trim().min(1).max(120)
const text = z.string().trim().min(1).max(2000)
const amount = z.number().min(0).max(1e6)

/** Things of the room by their kind, with the facts of each. */
export const newThing = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('station'),
      name,
      facts: z
        .object({
          job: z.enum(['coating', 'drying', 'light', 'water', 'drying again']),
          machines: z.number().int().min(1).max(50),
          minutes: z.number().min(1).max(600),
          /** Of a place to dry: its fans, and how damp it is in it. */
          fans: z.number().int().min(0).max(50).nullable().default(null),
          humidityShare: z.number().min(0).max(1).nullable().default(null),
        })
        .strict(),
    })
    .strict(),
  /** One press, washer or cutter, where a shop wants to tell them apart. */
  z
    .object({
      kind: z.literal('machine'),
      name,
      facts: z.object({ of: z.enum(LISTED_MACHINES) }).strict(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('supply'),
      name,
      facts: z
        .object({
          inHand: amount,
          unit: z.string().trim().min(1).max(20),
          perWeek: amount,
          weeksToCome: z.number().min(0).max(104),
          /** Of one unit, in the shop's money. */
          price: amount.nullable(),
          /** For one coat, of an emulsion. */
          perCoat: z.number().min(0.000001).max(1000).nullable(),
        })
        .strict(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('leftover'),
      name,
      facts: z
        .object({
          grams: amount,
          place: z.string().trim().min(1).max(80),
          lab: z
            .tuple([
              z.number().min(0).max(100),
              z.number().min(-160).max(160),
              z.number().min(-160).max(160),
            ])
            .nullable(),
        })
        .strict(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('term'),
      name,
      facts: z
        .object({
          firstDay: z.iso.date(),
          weeks: z.number().int().min(1).max(60),
          people: z.number().int().min(0).max(5000),
        })
        .strict(),
    })
    .strict(),
  z.object({ kind: z.literal('hazard text'), name, facts: z.object({ text }).strict() }).strict(),
  z
    .object({
      kind: z.literal('handover'),
      name,
      facts: z.object({ says: text, humidityShare: z.number().min(0).max(1).nullable() }).strict(),
    })
    .strict(),
])
export type NewThing = z.infer<typeof newThing>
export type ThingKind = NewThing['kind']

/** A sentence of the room; it opens to its facts. */
export const roomSentence = z.object({
  id: z.string(),
  says: z.string(),
  /** It wants to be looked at. */
  look: z.boolean(),
  facts: z.array(z.string()),
  /** A page that says more. */
  to: z.string().nullable(),
  /** A paper of it. */
  paper: z.string().nullable(),
  /** What can be changed right here. */
  thing: z.object({ id: z.string(), told: newThing }).nullable(),
})
export type RoomSentence = z.infer<typeof roomSentence>

/** What stands in the room, as sentences. */
export const things = z.object({
  kind: z.literal('things'),
  demo: z.boolean(),
  groups: z.array(z.object({ name: z.string(), sentences: z.array(roomSentence) })),
  incidents: z.array(
    z.object({
      id: z.string(),
      on: z.string(),
      place: z.string(),
      what: z.string(),
      done: z.string().nullable(),
      hurt: z.enum(['nobody', 'nearly', 'somebody']),
    }),
  ),
})
export type Things = z.infer<typeof things>

/** An accident, or nearly one. */
export const newIncident = z
  .object({
    place: name,
    what: text,
    done: text.nullable(),
    hurt: z.enum(['nobody', 'nearly', 'somebody']),
    /** The day, where it was not today. */
    on: z.iso.date().optional(),
  })
  .strict()
export type NewIncident = z.infer<typeof newIncident>
