import { z } from 'zod'
import { KEY_LIKE } from './keys.ts'
import { day, named } from './tests.ts'

const shortText = z.string().trim().min(1).max(120)
const key = z.string().regex(/^[0-9A-Za-z-]{8,64}$/, KEY_LIKE)

/** A film that somebody waits for. */
const queued = z.object({
  id: z.string(),
  what: z.string(),
  /** The layer it is for. */
  layer: named.nullable(),
  ticket: z.string().nullable(),
  /** Who waits for it. */
  person: named.nullable(),
  askedOn: day,
  madeOn: day.nullable(),
  /** Its scale bar as it was measured, and what that says, with what to do. */
  scale: z
    .object({
      barMm: z.number(),
      measuredMm: z.number(),
      /** The same across the film; null: not measured. */
      across: z.object({ barMm: z.number(), measuredMm: z.number() }).nullable(),
      is: z.enum(['true', 'off']),
      says: z.array(z.string()),
    })
    .nullable(),
  /** On a film made here with register marks: from the middle of one cross to the next. */
  crosses: z.object({ alongMm: z.number(), acrossMm: z.number() }).nullable(),
  liesIn: z.string().nullable(),
  left: z.object({ on: day, as: z.enum(['fetched', 'not wanted']) }).nullable(),
})

/** Who waits for which film: the first asked first; what left the queue today stands last. */
export const filmQueue = z.object({
  kind: z.literal('film queue'),
  films: z.array(queued),
  /** Layers of open tickets, those without a film first, for the blanks. */
  layers: z.array(named),
  people: z.array(named),
})
export type FilmQueue = z.infer<typeof filmQueue>

/** A film is wanted: for a layer, or of another kind in a few words. */
export const filmWanted = z
  .object({
    key,
    layer: z.string().optional(),
    what: shortText.optional(),
    person: z.string().optional(),
  })
  .strict()
  .refine(({ layer, what }) => layer !== undefined || what !== undefined, {
    message: 'say which film it is, or for which layer',
    path: ['what'],
  })

/** Something that happened to it. */
export const filmQueueAct = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('made') }).strict(),
  z
    .object({
      kind: z.literal('measured'),
      barMm: z.number().min(10).max(2000),
      measuredMm: z.number().min(1).max(4000),
      /** The other way, where that was measured too. */
      across: z
        .object({
          barMm: z.number().min(10).max(2000),
          measuredMm: z.number().min(1).max(4000),
        })
        .strict()
        .optional(),
    })
    .strict(),
  z.object({ kind: z.literal('lies'), where: shortText }).strict(),
  /** It has to be made once more. */
  z.object({ kind: z.literal('again') }).strict(),
  z.object({ kind: z.literal('fetched') }).strict(),
  z.object({ kind: z.literal('not wanted') }).strict(),
])
export type FilmQueueAct = z.infer<typeof filmQueueAct>
