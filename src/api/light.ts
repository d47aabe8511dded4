import { z } from 'zod'
import { countsIn } from './shop.ts'

/** A number that could be off. */
export const doubtful = z.object({
  value: z.number(),
  low: z.number(),
  high: z.number(),
  confidence: z.number(),
})

/** What is asked: a medium or a film, on a base, on a screen, under a unit. */
export const lightQuestion = z
  .object({
    medium: z.string().optional(),
    film: z.string().optional(),
    base: z.string().optional(),
    screen: z.string().optional(),
    unit: z.string().optional(),
    /** Where the film lies on the glass, mm from its front left corner: `420,310`. */
    place: z
      .string()
      .regex(/^\d{1,5}(\.\d{1,3})?,\d{1,5}(\.\d{1,3})?$/, '420,310')
      .optional(),
  })
  .strict()
export type LightQuestion = z.infer<typeof lightQuestion>

/**
 * The cloth: which doses work. Each thread along is one equal share of chance (or, for a film, of
 * its marks) and ends at a dose; threads across stand at doses and are as long as the chance that
 * the ground holds there.
 */
export const cloth = z.object({
  lowLu: z.number(),
  highLu: z.number(),
  /** Where each thread along ends, palest or least likely first. */
  along: z.array(z.number()),
  across: z.array(z.object({ doseLu: z.number(), share: z.number() })),
  /** Chance of good at doses across the scale: where the yellow lies. */
  good: z.array(z.object({ doseLu: z.number(), chance: z.number() })),
  /** Chance that marks open and the ground stays, sound or soft, at the same doses. */
  woven: z.array(z.object({ doseLu: z.number(), chance: z.number() })),
})
export type Cloth = z.infer<typeof cloth>

export const word = z.enum(['sure', 'fairly sure', 'in doubt', 'a first guess'])

/** How much light, and how sure. */
export const lightAnswer = z.object({
  kind: z.literal('light'),
  /** The sentence's blanks as they were answered. */
  asked: z.object({
    subject: z.object({ kind: z.enum(['medium', 'film']), id: z.string(), name: z.string() }),
    base: z.object({ id: z.string(), name: z.string() }),
    screen: z.object({ id: z.string(), name: z.string() }).nullable(),
    unit: z.object({ id: z.string(), name: z.string() }),
  }),
  verdict: z.enum(['works', 'no dose']),
  countsIn,
  /** As it stands on this unit's counter; low and high: where the chance is 0.8 of the best. */
  dose: doubtful,
  /** The dose in seconds of a cold and of a hot lamp; null until its warm-up is known. A unit that
   *  counts seconds has all its doses in seconds of a hot lamp. */
  lampTime: z
    .object({
      coldSec: z.number(),
      hotSec: z.number(),
      /** How wrong a hot lamp's seconds would be for a cold one. */
      says: z.string(),
    })
    .nullable(),
  chance: z.object({ good: z.number(), open: z.number(), hold: z.number(), sound: z.number() }),
  screensInTen: z.number(),
  word,
  cloth,
  /** Why: what the number rests on, in whole sentences. */
  reasons: z.array(z.string()),
  /** What moved since last time; null when nothing did or nobody knows. */
  changed: z.string().nullable(),
  advice: z.array(z.string()),
})
export type LightAnswer = z.infer<typeof lightAnswer>

/** The first useful dose from a few facts, and what a test strip would make of it. */
export const firstDose = z.object({
  kind: z.literal('first dose'),
  medium: z.string(),
  countsIn,
  dose: doubtful,
  screensInTen: z.number(),
  word,
  cloth,
  afterStrip: z.object({ screensInTen: z.number() }),
})
export type FirstDose = z.infer<typeof firstDose>
