import { z } from 'zod'
import { queryNumber } from './queryNumber.ts'

/** For which film, and what it wants of a screen. One of film and layer. */
export const screenQuestion = z
  .object({
    film: z.string().max(80).optional(),
    layer: z.string().max(80).optional(),
    /** Of its halftone; left out: it has none. */
    rulingPerCm: queryNumber(z.coerce.number().min(4).max(120)).optional(),
    /** How the ink should lie; left out: no matter. */
    ink: z.enum(['thin', 'thick']).optional(),
  })
  .strict()
export type ScreenQuestion = z.infer<typeof screenQuestion>

const says = z.enum(['yes', 'in doubt', 'no'])

/** The shop's screens for a film, the best first, each with its reasons. */
export const screenChoice = z.object({
  kind: z.literal('screen choice'),
  film: z
    .object({
      id: z.string(),
      name: z.string(),
      /** The layer it is for, and its ticket. */
      layer: z.string().nullable(),
      ticket: z.string().nullable(),
      /** Nine in ten of its marks are at least so wide; null: not known. */
      finestMm: z.number().nullable(),
    })
    .nullable(),
  screens: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      fabric: z.string(),
      frame: z.string(),
      rackSlot: z.string().nullable(),
      /** Whether a film can be exposed on it. */
      when: z.enum(['now', 'later', 'not']),
      /** Its coat is drying until then. */
      dryAt: z.iso.datetime().nullable(),
      /** Whether it holds the film: detail, tone, room. */
      fits: says,
      chosen: z.boolean(),
      /** What stops it first. */
      reasons: z.array(
        z.object({
          about: z.enum(['detail', 'tone', 'deposit', 'room', 'standing']),
          says,
          text: z.string(),
        }),
      ),
    }),
  ),
})
export type ScreenChoice = z.infer<typeof screenChoice>
