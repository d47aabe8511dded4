import { z } from 'zod'
import { doubtful, word } from './light.ts'
import { countsIn } from './shop.ts'

/** Which exposure's physics: what is left out is usual; things are known by id or name. */
export const setupQuestion = z
  .object({
    medium: z.string().max(80).optional(),
    base: z.string().max(80).optional(),
    screen: z.string().max(80).optional(),
    unit: z.string().max(80).optional(),
  })
  .strict()

/** One exposure's physics as this shop has found it, and what it knows of a medium. */
export const shopSetup = z.object({
  kind: z.literal('setup'),
  countsIn,
  /** In the form of `setup.json`; doses as on the unit's counter, the film base counted in. */
  setup: z.record(z.string(), z.record(z.string(), z.unknown())),
  medium: z
    .object({
      name: z.string(),
      dose: doubtful,
      chanceGood: z.number(),
      word,
      reasons: z.array(z.string()),
    })
    .nullable(),
})
export type ShopSetup = z.infer<typeof shopSetup>

/** How well the shop's data is: everything was read through. */
export const shopCheck = z.object({
  kind: z.literal('check'),
  verdict: z.enum(['sound', 'damaged']),
  rows: z.record(z.string(), z.number().nullable()),
  blobs: z.object({
    count: z.number(),
    bytes: z.number(),
    damaged: z.array(z.string()),
    missing: z.array(z.string()),
  }),
  dangling: z.array(z.object({ table: z.string(), column: z.string(), count: z.number() })),
  durable: z.boolean().nullable(),
})
export type ShopCheck = z.infer<typeof shopCheck>
