import { z } from 'zod'
import { HANDLING_NAMES, HARDENING_NAMES } from '../core/diagnosis/cause.ts'
import { SIGN_NAMES } from '../core/diagnosis/signNames.ts'

const sign = z.enum(SIGN_NAMES)
const cause = z.enum([...HARDENING_NAMES, ...HANDLING_NAMES])
const MOST_SIGNS = 40

/** What is seen and known of a screen that failed: names of signs with commas between. */
export const troubleQuestion = z
  .object({
    yes: z.string().max(1200).optional(),
    no: z.string().max(1200).optional(),
    /** The exposure that it came of; what the shop has of it is taken into account. */
    run: z.string().max(80).optional(),
  })
  .strict()

/** Ranked causes, the test that tells the first two apart, and what to do. */
export const trouble = z.object({
  kind: z.literal('trouble'),
  demo: z.boolean(),
  signs: z.array(
    z.object({
      name: sign,
      where: z.enum(['at the sink', 'against the light', 'at the press', 'at reclaim', 'known']),
      says: z.string(),
      isTest: z.boolean(),
    }),
  ),
  yes: z.array(sign),
  no: z.array(sign),
  /** What the shop’s own records say, with the reason; whoever asks may say otherwise. */
  told: z.array(z.object({ sign, is: z.enum(['yes', 'no']), because: z.string() })),
  /** The likeliest first; none while nothing was seen. */
  ranked: z.array(
    z.object({
      cause,
      says: z.string(),
      chance: z.number(),
      now: z.string(),
      next: z.string(),
      for: z.array(z.string()),
      against: z.array(z.string()),
    }),
  ),
  test: z
    .object({
      sign,
      how: z.string(),
      minutes: z.number(),
      yes: z.string(),
      no: z.string(),
    })
    .nullable(),
  /** How many failures of this shop have a cause that was found out. */
  learnedFrom: z.number(),
  /** Exposures that may be meant, the newest first. */
  runs: z.array(z.object({ id: z.string(), name: z.string() })),
  causes: z.array(z.object({ id: cause, name: z.string() })),
  /** Failures that were taken down, the newest first. */
  past: z.array(
    z.object({
      id: z.string(),
      on: z.string(),
      guessed: z.string(),
      cause: z.string().nullable(),
    }),
  ),
})
export type Trouble = z.infer<typeof trouble>

/** A failure is taken down; with its cause where that was found out. */
export const newFailure = z
  .object({
    yes: z.array(sign).max(MOST_SIGNS),
    no: z.array(sign).max(MOST_SIGNS),
    run: z.string().max(80).optional(),
    cause: cause.nullable(),
  })
  .strict()

export const confirmedCause = z.object({ cause }).strict()
