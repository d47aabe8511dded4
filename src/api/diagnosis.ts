import { z } from 'zod'

/** By its name in the table: the program's own, or one that the shop added. */
const sign = z.string().trim().min(1).max(80)
const cause = z.string().trim().min(1).max(80)
const where = z.enum(['at the sink', 'against the light', 'at the press', 'at reclaim', 'known'])
const MOST_SIGNS = 80

/** What is seen and known of a screen that failed: names of signs with commas between. */
export const troubleQuestion = z
  .object({
    yes: z.string().max(1200).optional(),
    no: z.string().max(1200).optional(),
    /** What was asked and nobody can say. */
    unsure: z.string().max(1200).optional(),
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
      where,
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
  /** What to ask next of how it was made: the answers that tell most of the cause. */
  asks: z.array(z.object({ sign, says: z.string() })),
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

const inTen = z.number().min(0.001).max(0.999)
const sentence = z.string().trim().min(1).max(160)

/** A row for the table of why screens fail: it stands over the one of the same names. */
export const newTroubleRow = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('cause'),
      /** Left out: a new one. */
      cause: cause.optional(),
      says: sentence,
      /** How common it is among failures here, 0..1. */
      share: inTen,
      now: sentence,
      next: sentence,
      /** False: it does not happen here. */
      isUsed: z.boolean(),
      isSeen: z.boolean(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('sign'),
      /** Left out: a new one. */
      sign: sign.optional(),
      where,
      says: sentence,
      /** How often it is there though its cause is another one, 0..1. */
      elsewhere: inTen,
      test: z
        .object({ how: sentence, minutes: z.number().min(1).max(1440) })
        .strict()
        .nullable(),
      isSeen: z.boolean(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('link'),
      cause,
      sign,
      /** How often the sign is there when this is the cause, 0..1. */
      chance: inTen,
      /** Seen in this shop; else judged. */
      isSeen: z.boolean(),
    })
    .strict(),
])
export type NewTroubleRow = z.infer<typeof newTroubleRow>

/** The id of the shop's own row, where there is one; without it the program's own word stands. */
const own = z.string().nullable()

/** Causes, signs and how often they go together, with what the shop changed and confirmed. */
export const troubleTable = z.object({
  kind: z.literal('trouble table'),
  demo: z.boolean(),
  /** Failures of this shop whose cause was found out. */
  learnedFrom: z.number(),
  causes: z.array(
    z.object({
      cause,
      says: z.string(),
      /** As the table has it, and as it stands with what was confirmed: of all failures, 0..1. */
      share: z.number(),
      shareNow: z.number(),
      now: z.string(),
      next: z.string(),
      isUsed: z.boolean(),
      isSeen: z.boolean(),
      row: own,
      /** True: the shop added it. */
      isAdded: z.boolean(),
      confirmed: z.number(),
      links: z.array(
        z.object({
          sign,
          says: z.string(),
          chance: z.number(),
          chanceNow: z.number(),
          isSeen: z.boolean(),
          row: own,
        }),
      ),
    }),
  ),
  signs: z.array(
    z.object({
      sign,
      where,
      says: z.string(),
      elsewhere: z.number(),
      test: z.object({ how: z.string(), minutes: z.number() }).nullable(),
      row: own,
      isAdded: z.boolean(),
    }),
  ),
})
export type TroubleTable = z.infer<typeof troubleTable>
