import { z } from 'zod'
import { KEY_LIKE } from './keys.ts'

/** Clocks that run in the room, and whose they are. */
export const clocks = z.object({
  kind: z.literal('clocks'),
  /** By the clock that they go by: a device sets its own against it. */
  now: z.iso.datetime(),
  clocks: z.array(
    z.object({
      /** Made on the device that started it. */
      key: z.string(),
      what: z.enum(['remover', 'step']),
      /** What runs, and on what. */
      title: z.string(),
      about: z.string(),
      person: z.string().nullable(),
      /** It follows who asks. */
      mine: z.boolean(),
      startedAt: z.iso.datetime(),
      /** Rings after so long. */
      sec: z.number(),
      /** A screen's tag, or an exposure. */
      screen: z.string().nullable(),
      run: z.string().nullable(),
    }),
  ),
})
export type Clocks = z.infer<typeof clocks>
export type ClockTold = Clocks['clocks'][number]

const newClock = z
  .object({
    key: z.string().regex(/^[0-9A-Za-z-]{8,64}$/, KEY_LIKE),
    /** The tag of the screen that the remover is on. */
    screen: z.string().trim().min(1).max(24),
    sec: z.number().min(5).max(3600),
    /** By the device's clock. */
    startedAt: z.iso.datetime(),
    endedAt: z.iso.datetime().nullable(),
  })
  .strict()
export type NewClock = z.infer<typeof newClock>

/** Clocks that a device started or ended; what was told before is not taken down again. */
export const clockNews = z
  .object({
    /** The device's clock when it was sent. */
    sentAt: z.iso.datetime(),
    /** The shop's clock less the device's, as its answers told it. */
    aheadMs: z.number().optional(),
    clocks: z.array(newClock).min(1).max(50),
  })
  .strict()
