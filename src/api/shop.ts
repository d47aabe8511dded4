import { z } from 'zod'

/** What the lamp counts: an integrator's light units, or nothing but time. */
export const countsIn = z.enum(['light units', 'seconds'])

/** The shop behind this door; `none` while the data folder is empty. */
export const shop = z.discriminatedUnion('state', [
  z.object({ kind: z.literal('shop'), state: z.literal('none') }),
  z.object({
    kind: z.literal('shop'),
    state: z.enum(['demo', 'own']),
    name: z.string(),
    units: z.enum(['metric', 'imperial']),
  }),
])
export type Shop = z.infer<typeof shop>

/** How a screen came out, in the words of the room. */
export const outcome = z.enum(['washed off', 'soft', 'good', 'filling', 'filled'])
export type Outcome = z.infer<typeof outcome>

/** What somebody remembers of one exposure; blanks left open are simply missing. */
export const remembered = z.object({
  medium: z.string().max(80),
  doseLu: z.number().min(0.1).max(100_000),
  outcome,
})

/** The paragraph with five blanks. Everything may be left open. */
export const firstFacts = z
  .object({
    shopName: z.string().trim().min(1).max(80),
    countsIn,
    fabric: z.string().max(20),
    colour: z.enum(['white', 'dyed']),
    coats: z.enum(['once on each side', 'twice on the print side', 'more']),
    emulsion: z.enum(['ready-mixed', 'two-part', 'not sure']),
    lastTime: remembered,
    another: remembered,
  })
  .partial()
  .strict()
export type FirstFacts = z.infer<typeof firstFacts>

/** One of several things the shop has, for a blank in a sentence. */
export const choice = z.object({
  id: z.string(),
  name: z.string(),
  /** A few words more, such as the fabric of a screen. */
  about: z.string().nullable(),
  /** Why it cannot be used now; null when it can. */
  not: z.string().nullable(),
})
export type Choice = z.infer<typeof choice>

/** What fills the blanks of the Light page, with the shop's commonest first. */
export const choices = z.object({
  kind: z.literal('choices'),
  media: z.array(choice),
  films: z.array(choice),
  bases: z.array(choice),
  screens: z.array(choice),
  units: z.array(choice),
  usual: z.object({
    medium: z.string(),
    base: z.string(),
    screen: z.string().nullable(),
    unit: z.string(),
  }),
})
export type Choices = z.infer<typeof choices>

export const health = z.object({
  kind: z.literal('health'),
  status: z.enum(['opening', 'ready', 'failed']),
  /** What failed and what to do, when it did. */
  message: z.string().nullable(),
})
export type Health = z.infer<typeof health>

/** Every answer that is no answer: one sentence, and the field it is about where there is one. */
export const refusal = z.object({
  error: z.object({ kind: z.string(), message: z.string(), field: z.string().optional() }),
})
export type Refusal = z.infer<typeof refusal>
