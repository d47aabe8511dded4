import { z } from 'zod'
import { cloth, doubtful, word } from './light.ts'
import { queryNumber } from './queryNumber.ts'
import { choice, countsIn, outcome } from './shop.ts'

/** A day as people write it to one another: 2026-11-28. */
export const day = z.iso.date()

/** The three things a dose is believed for; what is left out is usual. Ids or the names in use. */
const setUp = z.object({
  fabric: z.string().max(80).optional(),
  /** The bucket that the screens are coated from. */
  batch: z.string().max(80).optional(),
  unit: z.string().max(80).optional(),
})
export const named = z.object({ id: z.string(), name: z.string() })

/** What is asked of the Tests page: what we believe of a set-up, today or as it stood on a day. */
export const testsQuestion = setUp.extend({ on: day.optional() }).strict()
export type TestsQuestion = z.infer<typeof testsQuestion>

/** A value with its range on one day; a dose stands as on the unit's counter, as everywhere here. */
const onDay = z.object({ on: day, value: z.number(), low: z.number(), high: z.number() })

/** One medium as a row of the page. */
export const mediumBelief = z.object({
  medium: named,
  /** "11 screens, 2 strips"; "none yet". */
  heard: z.string(),
  verdict: z.enum(['works', 'no dose']),
  dose: doubtful,
  screensInTen: z.number(),
  word,
  cloth,
})

/** Something that is not as it was, what most likely did it, and how to make sure. */
export const alarm = z.object({
  since: day,
  cause: z.enum(['lamp', 'bucket', 'drying', 'fabric', 'reading mistake', 'unknown']),
  /** Short and bold: "The new bucket wants more light." */
  headline: z.string(),
  sentence: z.string(),
  /** What it might be as well, where the readings cannot tell. */
  others: z.array(z.string()),
  /** The one test that tells them apart. */
  test: z.string(),
})

export const tests = z.object({
  kind: z.literal('tests'),
  asked: z.object({ fabric: named, batch: named.nullable(), unit: named }),
  choices: z.object({
    fabrics: z.array(choice),
    batches: z.array(choice),
    units: z.array(choice),
    media: z.array(choice),
  }),
  countsIn,
  on: day,
  /** The belief as it is now, not as it stood on a day before. */
  now: z.boolean(),
  /** One scale for all cloths. */
  scale: z.object({ lowLu: z.number(), highLu: z.number() }),
  media: z.array(mediumBelief),
  /** Light units that harden the ground: what is believed, how it moved, and each reading of it. */
  ground: z.object({
    dose: doubtful,
    days: z.array(onDay),
    /** What one wedge, strip or screen says by itself; several may share a day. */
    readings: z.array(onDay.extend({ id: z.string(), says: z.string() })),
    /** A new lamp, a new bucket: where the line is broken. */
    breaks: z.array(z.object({ on: day, words: z.string() })),
  }),
  /** What moved, in words; null when nothing did. */
  changed: z.object({ headline: z.string(), sentence: z.string() }).nullable(),
  alarms: z.array(alarm),
  /** What drift is charted against. */
  reference: z.object({ acceptedOn: day }).nullable(),
  /** The test worth most now, and what it would tell. */
  next: z.object({
    kind: z.enum(['wedge', 'strip']),
    sentence: z.string(),
    medium: named,
    bands: z.number(),
    minutes: z.number(),
  }),
  warnings: z.array(z.string()),
})
export type Tests = z.infer<typeof tests>

/** A reading as a line of the shop's memory. */
export const readingLine = z.object({
  id: z.string(),
  on: day,
  kind: z.enum(['wedge', 'strip', 'outcome']),
  /** "Wedge at 60: step 6 solid, step 8 clear". */
  says: z.string(),
  /** "screen 14, 90-48 yellow, the open bucket, the big lamp" */
  about: z.string(),
  medium: named.nullable(),
  struck: z.object({ on: day, reason: z.string() }).nullable(),
  /** What is odd about it, in sentences. */
  doubts: z.array(z.string()),
})
export type ReadingLine = z.infer<typeof readingLine>

/** What the shop's readings are, newest first: all, or those a medium's dose rests on. */
export const readingsQuestion = setUp
  .extend({
    medium: z.string().max(80).optional(),
    limit: queryNumber(z.coerce.number().int().min(1).max(500)).optional(),
  })
  .strict()
export const readingList = z.object({
  kind: z.literal('readings'),
  readings: z.array(readingLine),
  /** What the medium's own strips and screens say by themselves; null where they cannot tell. */
  alone: z.string().nullable(),
})
export type ReadingList = z.infer<typeof readingList>

export const doseCounts = z.number().min(0.1).max(100_000)
const ground = z.enum(['washed off', 'soft', 'sound'])
const marks = z.enum(['open', 'filling', 'filled'])
/** One word, or two ticks: the stencil and the image. */
const grading = z.union([
  z.object({ grade: outcome }).strict(),
  z.object({ ground, marks }).strict(),
])
const circumstances = setUp.extend({
  screen: z.string().max(80).optional(),
  base: z.string().max(80).optional(),
  /** Today unless told. */
  on: day.optional(),
  /** Where film or wedge lay on the glass, from its front left corner; matters once evenness is known. */
  place: z
    .object({ xMm: z.number().min(0).max(10_000), yMm: z.number().min(0).max(10_000) })
    .strict()
    .optional(),
  /** Under a unit that counts seconds: how its lamp was lit; doses are a hot lamp's unless told. */
  from: z.enum(['cold', 'hot']).optional(),
  note: z.string().trim().max(2000).optional(),
})
const subject = { medium: z.string().max(80).optional(), film: z.string().max(80).optional() }
/** A wedge as it is printed on its packet; the usual 21 steps of 0.15 unless told. */
export const wedge = z
  .object({
    steps: z.number().int().min(2).max(61),
    firstDensity: z.number().min(0).max(1),
    increment: z.number().min(0.05).max(0.5),
  })
  .strict()
export const steps = {
  lastSolidStep: z.number().int().min(0).max(61),
  firstClearStep: z.number().int().min(1).max(62).optional(),
}

/** A reading that somebody tells; doses as on the unit's counter. */
export const newReading = z.discriminatedUnion('kind', [
  circumstances
    .extend({ kind: z.literal('wedge'), doseLu: doseCounts, wedge: wedge.optional(), ...steps })
    .strict(),
  circumstances
    .extend({
      kind: z.literal('strip'),
      ...subject,
      bands: z
        .array(z.object({ doseLu: doseCounts, is: grading }).strict())
        .min(2)
        .max(20),
    })
    .strict(),
  circumstances
    .extend({ kind: z.literal('outcome'), ...subject, doseLu: doseCounts, is: grading })
    .strict(),
])
export type NewReading = z.infer<typeof newReading>

/** A reading was taken down: how it stands, and what it moved, in sentences. */
export const readingTaken = z.object({
  kind: z.literal('reading taken'),
  reading: readingLine,
  moved: z.array(z.string()),
})
export type ReadingTaken = z.infer<typeof readingTaken>

export const strike = z.object({ reason: z.string().trim().min(1).max(200) }).strict()

/** Accepts what is believed today as what drift is charted against. */
export const accepted = z.object({ kind: z.literal('accepted'), acceptedOn: day })
export type Accepted = z.infer<typeof accepted>

/** Which strip to make; how many bands and at which doses is ours to say unless told. */
export const designQuestion = setUp
  .extend({
    medium: z.string().max(80).optional(),
    bands: queryNumber(z.coerce.number().int().min(3).max(12)).optional(),
  })
  .strict()
export type DesignQuestion = z.infer<typeof designQuestion>
export const testDesign = z.object({
  kind: z.literal('test design'),
  asked: z.object({ fabric: named, batch: named.nullable(), unit: named, medium: named }),
  countsIn,
  /** Band 1 has the least dose. */
  bands: z.array(z.object({ number: z.number(), doseLu: z.number() })),
  /** Set on the counter one after another, the largest band uncovered first. */
  incrementsLu: z.array(z.number()),
  /** From the printed film's top edge: where the card's edge lies after each uncovering. */
  coverMm: z.array(z.number()),
  before: z.object({ dose: doubtful, screensInTen: z.number() }),
  after: z.object({ lowLu: z.number(), highLu: z.number(), screensInTen: z.number() }),
  minutes: z.number(),
  /** The same with a second film beside the first, made apart from it; each is told as a strip. */
  twoFilms: z.object({
    lowLu: z.number(),
    highLu: z.number(),
    screensInTen: z.number(),
    minutes: z.number(),
  }),
  sentences: z.array(z.string()),
  cautions: z.array(z.string()),
})
export type TestDesign = z.infer<typeof testDesign>

/** What each grade looks like on this fabric with this emulsion, drawn by the forecast. */
export const gradePictures = z.object({
  kind: z.literal('grades'),
  grades: z.array(z.object({ grade: outcome, words: z.string(), picture: z.string() })),
})
export type GradePictures = z.infer<typeof gradePictures>

/** A shop's old notes: lines of date, medium, dose, outcome. */
export const notes = setUp
  .extend({
    text: z.string().max(900_000),
    dryRun: z.boolean(),
    /** What 3/4/2026 means, where the file does not tell by itself. */
    slashDates: z.enum(['day first', 'month first']).optional(),
  })
  .strict()
export const notesRead = z.object({
  kind: z.literal('notes'),
  dryRun: z.boolean(),
  lines: z.number(),
  /** Lines that can be taken, or were. */
  taken: z.number(),
  problems: z.array(z.object({ line: z.number(), message: z.string() })),
  /** Some date like 3/4/2026 may be two days: say with slashDates which. */
  slashDatesUnclear: z.boolean(),
  preview: z.array(z.object({ line: z.number(), says: z.string() })),
})
export type NotesRead = z.infer<typeof notesRead>
