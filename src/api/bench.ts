import { z } from 'zod'
import { KEY_LIKE } from './keys.ts'
import { countsIn } from './shop.ts'

const key = z.string().regex(/^[0-9A-Za-z-]{8,64}$/, KEY_LIKE)
const shortText = z.string().trim().min(1).max(120)
const seconds = z.number().min(0).max(86_400)
const count = z.number().min(0).max(1e7).nullable()

const mistake = z.enum([
  'not dry',
  'thin or wrong-sided coat',
  'dust under the film',
  'film flipped',
  'weak marks',
  'film moved, near the frame, wrong fabric',
  'no vacuum',
  'wrong dose',
  'rushed washout',
  'left wet',
])
const grade = z.enum(['washed off', 'soft', 'good', 'filling', 'filled'])

/** One step as it is shown. */
const step = z.object({
  name: z.string(),
  title: z.string(),
  lines: z.array(z.string()),
  /** What the shop knows of this exposure that speaks against going on. */
  known: z.array(z.string()).optional(),
  caution: z.string().nullable(),
  /** The word on the act that ends it. */
  done: z.string(),
  clock: z
    .object({
      /** Counts down from here; null: it counts up. */
      sec: z.number().nullable(),
      /** The word on the act that starts it; null: it runs since the step `since` was done. */
      start: z.string().nullable(),
      since: z.string(),
    })
    .nullable(),
  asks: z
    .discriminatedUnion('what', [
      z.object({
        what: z.enum(['set', 'read']),
        start: z.number(),
        low: z.number(),
        high: z.number(),
        unit: z.string(),
      }),
      z.object({ what: z.literal('gauge'), usual: z.number().nullable() }),
      z.object({ what: z.literal('wedge'), steps: z.number() }),
    ])
    .nullable(),
  causes: z.array(
    z.object({
      name: z.string(),
      says: z.string(),
      act: z.string(),
      to: z.string(),
      grade: grade.nullable(),
    }),
  ),
  catches: z.array(mistake),
})

/** Something that happened at a step; its key was made on the device. */
export const runEvent = z
  .object({
    key,
    kind: z.enum(['done', 'clock', 'not right', 'back']),
    step: shortText,
    cause: shortText.nullable(),
    value: count,
    second: count,
    /** When, by whichever clock the message it stands in says. */
    at: z.iso.datetime(),
  })
  .strict()
  .refine((event) => (event.kind === 'not right') === (event.cause !== null), {
    message: 'say what was not right',
    path: ['cause'],
  })
export type RunEventTold = z.infer<typeof runEvent>

/** What it is about, by its names. */
export const runAbout = z.object({
  subject: z.string(),
  screen: z.string().nullable(),
  unit: z.string(),
  countsIn,
  dose: z.object({ value: z.number(), low: z.number(), high: z.number() }),
  /** How long the lamp should be lit; null until somebody has timed it. */
  litSec: z.object({ low: z.number(), high: z.number() }).nullable(),
})
export type RunAbout = z.infer<typeof runAbout>

/** The layer of a ticket that it is for; null: a medium, or a film on no ticket. */
const runLayer = z
  .object({
    shortName: z.string(),
    ink: z.string().nullable(),
    ticket: z.object({ id: z.string(), name: z.string(), code: z.string() }),
  })
  .nullable()
export type RunLayer = z.infer<typeof runLayer>

/** One exposure step by step; where it is follows from its events. */
export const run = z.object({
  kind: z.literal('run'),
  id: z.string(),
  demo: z.boolean(),
  about: runAbout,
  steps: z.array(step),
  events: z.array(runEvent),
  begunAt: z.iso.datetime(),
  endedAt: z.iso.datetime().nullable(),
  /** By the clock that its events go by: a device sets its own against it. */
  now: z.iso.datetime(),
  /** The film that lies on the glass; null: a medium. */
  film: z.string().nullable(),
  layer: runLayer,
  /** What the shop learned of it. */
  readings: z.object({ wedge: z.boolean(), outcome: z.boolean() }),
  /** Why a reading could not be taken down, in a sentence. */
  notTaken: z.string().nullable(),
})
export type Run = z.infer<typeof run>

/** Begins one from what Light was asked; things are known by id or name. */
export const newRun = z
  .object({
    key,
    medium: z.string().max(80).optional(),
    film: z.string().max(80).optional(),
    base: z.string().max(80).optional(),
    screen: z.string().max(80).optional(),
    unit: z.string().max(80).optional(),
    place: z
      .string()
      .regex(/^\d{1,5}(\.\d{1,3})?,\d{1,5}(\.\d{1,3})?$/, '420,310')
      .optional(),
    /** Off for an hour, or just used; matters most where seconds are counted. */
    from: z.enum(['cold', 'hot']).optional(),
  })
  .strict()
export type NewRun = z.infer<typeof newRun>

/** A run sheet on paper, from what Light was asked. */
export const runSheetPaper = newRun.omit({ key: true })

/** What happened since, in order; what was sent before is not taken down again. */
export const runNews = z
  .object({
    /** The device's clock when it was sent. */
    sentAt: z.iso.datetime(),
    /** The shop's clock less the device's, as its answers told it. */
    aheadMs: z.number().optional(),
    events: z.array(runEvent).max(500),
  })
  .strict()
export type RunNews = z.infer<typeof runNews>

/** Exposures that go on in the room. */
export const runList = z.object({
  kind: z.literal('runs'),
  runs: z.array(z.object({ id: z.string(), about: runAbout, layer: runLayer, step: z.string() })),
})
export type RunList = z.infer<typeof runList>

const entry = z
  .object({
    name: z.string().regex(/^([a-z]{2,10}|own-\d{1,2})$/, 'wash or own-1'),
    title: z.string().trim().min(1).max(24).optional(),
    lines: z.array(z.string().trim().min(1).max(64)).max(2).optional(),
    clockSec: seconds.min(1).optional(),
  })
  .strict()
/** A shop's own list of steps for a unit; null: the usual ones. */
export const stepList = z.object({
  kind: z.literal('step list'),
  unit: z.string(),
  list: z.array(entry).nullable(),
  /** How the steps then read. */
  steps: z.array(step),
})
export type StepList = z.infer<typeof stepList>
export const newStepList = z
  .object({ unit: z.string().max(80).optional(), list: z.array(entry).max(40).nullable() })
  .strict()
