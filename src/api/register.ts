import { z } from 'zod'
import { KEY_LIKE } from './keys.ts'
import { queryNumber } from './queryNumber.ts'
import { day, named } from './tests.ts'

const shortText = z.string().trim().min(1).max(120)
const tag = z.string().trim().min(1).max(24)
const slot = z.string().trim().min(1).max(40)
/** Made where it happened: what is sent twice under one key is taken down once. */
const key = z.string().regex(/^[0-9A-Za-z-]{8,64}$/, KEY_LIKE)
const state = z.enum(['clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn', 'lost'])
const tension = z.number().min(0).max(100)

/** A screen as the register has it. */
const line = z.object({
  id: z.string(),
  tag: z.string(),
  state,
  /** The one thing to do next. */
  next: z.enum([
    'coat it',
    'let it dry',
    'expose it',
    'the coat is too old',
    'print it',
    'finish the print',
    'reclaim it',
    'stretch new fabric',
    'find it',
  ]),
  fabric: z.string(),
  frame: z.string(),
  owner: named.nullable(),
  /** The owner is who asks. */
  mine: z.boolean(),
  keptUntil: day.nullable(),
  rackSlot: z.string().nullable(),
  haze: z.boolean(),
  tension: z.object({ newtonPerCm: z.number(), on: day.nullable() }).nullable(),
  coat: z
    .object({
      recipe: z.string(),
      bucket: z.string().nullable(),
      coatedOn: day,
      /** When it is meant to be dry, or somebody felt that it is. */
      dryAt: z.iso.datetime().nullable(),
      /** It is fresh, and nobody felt yet whether it is dry. */
      isToFeel: z.boolean(),
      goodUntil: day.nullable(),
    })
    .nullable(),
  /** What was exposed on it. */
  stencil: z
    .object({
      litOn: day,
      film: named.nullable(),
      layer: z
        .object({
          ticket: named,
          ink: named.extend({ lab: z.tuple([z.number(), z.number(), z.number()]) }).nullable(),
          shortName: z.string(),
          pulled: z.number(),
          good: z.number(),
        })
        .nullable(),
    })
    .nullable(),
})
export type ScreenLine = z.infer<typeof line>

export const register = z.object({
  kind: z.literal('register'),
  demo: z.boolean(),
  screens: z.array(line),
  /** For the blanks. */
  people: z.array(named.extend({ className: z.string().nullable() })),
  frames: z.array(named),
  fabrics: z.array(named),
  buckets: z.array(named),
  recipe: z.string(),
  /** How long a coat takes to dry here, and of how many that were felt dry; null: nobody felt any. */
  drying: z.object({ hours: z.number(), of: z.number() }).nullable(),
  nextTag: z.string(),
})
export type Register = z.infer<typeof register>

/** Whose it is, what is on it, what next: one screen. */
export const screenPage = z.object({
  kind: z.literal('screen'),
  demo: z.boolean(),
  screen: line,
  /** Its rack, five places of it; empty where it has no numbered place. */
  beside: z.array(
    z.object({ place: z.number(), tag: z.string().nullable(), state: state.nullable() }),
  ),
  /** Newest first. */
  history: z.array(
    z.object({ id: z.string(), on: day, says: z.string(), by: z.string().nullable() }),
  ),
  people: z.array(named),
  fabrics: z.array(named),
})
export type ScreenPage = z.infer<typeof screenPage>

const told = { key, happenedAt: z.iso.datetime().optional() }

/** Something that happened to a screen, or that somebody settles. */
export const screenAct = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('state'),
      ...told,
      to: z.enum(['exposed', 'in print', 'to reclaim', 'torn']),
      says: shortText.optional(),
    })
    .strict(),
  z.object({ kind: z.literal('reclaimed'), ...told, haze: z.boolean() }).strict(),
  z.object({ kind: z.literal('lost'), ...told, says: shortText.optional() }).strict(),
  z.object({ kind: z.literal('found'), ...told, slot: slot.optional() }).strict(),
  z
    .object({
      kind: z.literal('owner'),
      ...told,
      owner: z.string().nullable(),
      until: day.nullable().optional(),
    })
    .strict(),
  z.object({ kind: z.literal('slot'), ...told, slot: slot.nullable() }).strict(),
  z.object({ kind: z.literal('tension'), ...told, newtonPerCm: tension }).strict(),
  z.object({ kind: z.literal('haze'), ...told, is: z.boolean() }).strict(),
  z.object({ kind: z.literal('note'), ...told, says: shortText }).strict(),
  /** New fabric on the old frame, under the old tag. */
  z
    .object({
      kind: z.literal('stretched'),
      ...told,
      fabric: z.string(),
      newtonPerCm: tension.optional(),
    })
    .strict(),
])
export type ScreenAct = z.infer<typeof screenAct>

/** Frames that get a tag; the fabric and frame are the shop's, or a new frame's inside. */
export const newScreens = z
  .object({
    tags: z.array(tag).min(1).max(60),
    fabric: z.string(),
    frame: z.union([
      z.string(),
      z
        .object({ widthMm: z.number().min(50).max(5000), heightMm: z.number().min(50).max(5000) })
        .strict(),
    ]),
    newtonPerCm: tension.optional(),
  })
  .strict()
export type NewScreens = z.infer<typeof newScreens>

/** Many screens coated at once, and whose they will be. */
export const newCoatings = z
  .object({
    key: z.string().regex(/^[0-9A-Za-z-]{8,48}$/, KEY_LIKE),
    screens: z
      .array(z.object({ tag, owner: z.string().nullable() }).strict())
      .min(1)
      .max(200),
    recipe: shortText,
    /** By its name or id; left out: the newest that is open. */
    bucket: z.string().optional(),
    dryHours: z.number().min(0).max(72).optional(),
    goodDays: z.number().min(1).max(365).optional(),
    /** Until when the owners may keep them. */
    until: day.optional(),
  })
  .strict()
export type NewCoatings = z.infer<typeof newCoatings>

/** What was coated, and what was not, with why. */
export const coated = z.object({
  kind: z.literal('coated'),
  coated: z.array(z.string()),
  not: z.array(z.object({ tag: z.string(), why: z.string() })),
  dryAt: z.iso.datetime(),
  goodUntil: day,
})
export type Coated = z.infer<typeof coated>

/** Screens that somebody felt to be dry. */
export const newDry = z
  .object({
    key: z.string().regex(/^[0-9A-Za-z-]{8,48}$/, KEY_LIKE),
    tags: z.array(tag).min(1).max(200),
  })
  .strict()
export type NewDry = z.infer<typeof newDry>

/** What is dry, and what was left as it is, with why. */
export const feltDry = z.object({
  kind: z.literal('felt dry'),
  dry: z.array(z.string()),
  not: z.array(z.object({ tag: z.string(), why: z.string() })),
})
export type FeltDry = z.infer<typeof feltDry>

export const reclaimQuestion = z
  .object({
    on: day.optional(),
    graceDays: queryNumber(z.coerce.number().int().min(0).max(365)).optional(),
  })
  .strict()
/** What to do on reclaim day. */
export const reclaimList = z.object({
  kind: z.literal('reclaim day'),
  on: day,
  graceDays: z.number(),
  owed: z.array(z.object({ owner: z.string().nullable(), screens: z.array(line) })),
  abandoned: z.array(line),
  haze: z.array(line),
  restretch: z.array(line),
})
export type ReclaimList = z.infer<typeof reclaimList>

/**
 * Which labels: tags with commas between; left out: all. `coat`: what a screen is coated with, for
 * whom and until when, instead of its fabric and frame.
 */
export const labelsQuestion = z
  .object({ tags: z.string().max(2000).optional(), say: z.enum(['screen', 'coat']).optional() })
  .strict()
