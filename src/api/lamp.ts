import { z } from 'zod'
import { doubtful } from './light.ts'
import { choice, countsIn } from './shop.ts'
import { day, doseCounts, named, steps, wedge } from './tests.ts'

const perSec = doubtful
/** A lamp: how it warms up, what that means for N counts, and how it ages. */
export const lamp = z.object({
  kind: z.literal('lamp'),
  unit: named,
  countsIn,
  lampHours: z.number().nullable(),
  fittedOn: day.nullable(),
  timings: z.array(
    z.object({
      on: day,
      from: z.enum(['cold', 'hot']),
      pairs: z.array(z.object({ clockSec: z.number(), count: z.number() })),
    }),
  ),
  /** Null until there are pairs enough to tell. */
  warmUp: z
    .object({
      hotPerSec: perSec,
      coldPerSec: perSec,
      tauSec: doubtful,
      /** The fit over the pairs of the newest timing. */
      curve: z.array(z.object({ clockSec: z.number(), count: z.number() })),
    })
    .nullable(),
  /** For usual doses: seconds from cold and from hot, and what plain seconds would have given. */
  times: z.array(
    z.object({
      count: z.number(),
      coldSec: z.number(),
      hotSec: z.number(),
      /** Counts that a cold lamp gives in the seconds a hot one needs. */
      plainCount: z.number(),
    }),
  ),
  ageing: z
    .object({
      points: z.array(
        z.object({
          lampHours: z.number(),
          hotPerSec: z.number(),
          low: z.number(),
          high: z.number(),
        }),
      ),
      line: z.array(
        z.object({ lampHours: z.number(), value: z.number(), low: z.number(), high: z.number() }),
      ),
      replaceAtHours: doubtful.nullable(),
    })
    .nullable(),
  /** What a hand meter shows in the light in which this unit's seconds are counted; null: nobody said. */
  meterReading: z.number().nullable(),
  sentences: z.array(z.string()),
})
export type Lamp = z.infer<typeof lamp>
export const unitQuestion = z.object({ unit: z.string().max(80).optional() }).strict()
export const newTiming = z
  .object({
    unit: z.string().max(80).optional(),
    from: z.enum(['cold', 'hot']),
    on: day.optional(),
    lampHours: z.number().min(0).max(1_000_000).optional(),
    pairs: z
      .array(
        z
          .object({ clockSec: z.number().min(0).max(7200), count: z.number().min(0).max(1e7) })
          .strict(),
      )
      .min(2)
      .max(200),
  })
  .strict()
export type NewTiming = z.infer<typeof newTiming>
/** A new lamp was fitted; it starts at 0 hours unless told. */
export const newLamp = z
  .object({
    unit: z.string().max(80).optional(),
    on: day.optional(),
    lampHours: z.number().min(0).max(1_000_000).optional(),
  })
  .strict()
const reading = z.number().min(1e-6).max(1e9)
/** The light in which a unit's seconds are counted, as a hand meter shows it in its own unit. */
export const meterReference = z.object({ unit: z.string().max(80).optional(), reading }).strict()
/** A dose under a light that moves: what the meter showed at the start, and since. */
export const meterQuestion = z
  .object({
    unit: z.string().max(80).optional(),
    /** Seconds as they stand on Light. */
    count: doseCounts,
    readings: z
      .array(z.object({ clockSec: z.number().min(0).max(86_400), reading }).strict())
      .min(1)
      .max(100),
  })
  .strict()
export type MeterQuestion = z.infer<typeof meterQuestion>
/** Seconds by the meter: how many still, from the last reading on, and how sure. */
export const byMeter = z.object({
  kind: z.literal('by meter'),
  unit: named,
  given: doubtful,
  moreSec: doubtful,
  /** On the clock; null where no other reading would help. */
  readAgainSec: z.number().nullable(),
  sentences: z.array(z.string()),
})
export type ByMeter = z.infer<typeof byMeter>
/** A new bucket of an emulsion the shop has. */
export const newBucket = z
  .object({
    emulsion: z.string().max(80).optional(),
    name: z.string().trim().min(1).max(80),
    on: day.optional(),
  })
  .strict()
export const bucketAdded = z.object({ kind: z.literal('bucket'), batch: choice })
export type BucketAdded = z.infer<typeof bucketAdded>

/** How even the light is on the glass, from wedges lying at several places. */
export const evenness = z.object({
  kind: z.literal('evenness'),
  unit: named,
  countsIn,
  /** The wedges that were laid last; null before any were. */
  wedge: wedge.nullable(),
  glass: z.object({ widthMm: z.number(), heightMm: z.number() }).nullable(),
  /** Share of the light where the counter's sensor is reckoned, at each wedge's place. */
  places: z.array(z.object({ xMm: z.number(), yMm: z.number(), share: z.number() })),
  /** A grid over the glass, for a picture; null until there is a map. */
  grid: z
    .object({
      columns: z.number(),
      rows: z.number(),
      shares: z.array(z.number()),
      sdShare: z.number(),
    })
    .nullable(),
  sentences: z.array(z.string()),
})
export type Evenness = z.infer<typeof evenness>
export const newEvenness = z
  .object({
    unit: z.string().max(80).optional(),
    on: day.optional(),
    glass: z
      .object({ widthMm: z.number().min(50).max(10_000), heightMm: z.number().min(50).max(10_000) })
      .strict(),
    doseLu: doseCounts,
    wedge: wedge.optional(),
    /** From the glass's front left corner, as one stands before it. */
    places: z
      .array(z.object({ xMm: z.number(), yMm: z.number(), ...steps }).strict())
      .min(3)
      .max(25),
  })
  .strict()
export type NewEvenness = z.infer<typeof newEvenness>
