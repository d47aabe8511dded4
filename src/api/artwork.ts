import { z } from 'zod'
import { named } from './tests.ts'

/** CIELAB under D50. */
const lab = z.tuple([z.number(), z.number(), z.number()])
const ink = named.extend({ lab, opacity: z.number() })
const id = z.string().max(80)

/** A plan in the words of plan files, as the command `films` reads them. */
const plan = z.record(z.string(), z.unknown())

/**
 * Artwork as samples of stored sRGB: level 0 its own pixels, or a drawing's at a size for looking;
 * level 1 one tile, the whole made small. A tile is a zlib stream of three planes, red, green and
 * blue, row by row, at the right and lower rim as small as what is left. One that is white all over
 * is not stored: 204.
 */
const artworkPicture = z.object({
  tileSide: z.number(),
  widthPx: z.number(),
  heightPx: z.number(),
  small: z.object({ widthPx: z.number(), heightPx: z.number() }),
  /** Three planes of sRGB, or four of what inks leave of paper. */
  space: z.enum(['rgb', 'cmyk']),
  /** Inks of the artwork's own that have a plane of grey each behind those, in small letters. */
  passing: z.array(z.string()),
  /** Another one: other samples. */
  version: z.string(),
})
export type ArtworkPicture = z.infer<typeof artworkPicture>

const part = z.number().min(0).max(1)

/** Tints of an ink as measured on a print: pairs of shares that rise, film and print. */
export const toneCurveFacts = z
  .object({
    /** By its name, as plans have it. */
    ink: z.string().trim().min(1).max(80),
    fabric: id,
    dots: z.enum(['ruled', 'scattered']),
    /** Of scattered dots how many lie side by side on a cm. */
    rulingPerCm: z.number().min(1).max(3000),
    tints: z
      .array(z.tuple([part, part]))
      .min(1)
      .max(100),
  })
  .strict()
export type ToneCurveFacts = z.infer<typeof toneCurveFacts>

const toneCurve = toneCurveFacts.extend({ id: z.string(), at: z.string() })

/** The most ink at one place that dries here before the next screen, in solids. */
export const inkLimitFacts = z.object({ coverage: z.number().min(1).max(4) }).strict()
export type InkLimitFacts = z.infer<typeof inkLimitFacts>

/** What the shop knows of its prints. */
const printsKnown = {
  /** Newest first; the first that fits counts. */
  toneCurves: z.array(toneCurve),
  /** In solids: the shop's own, or what is usual. */
  inkLimit: z.number(),
}
export const printsKnownAnswer = z.object({ kind: z.literal('prints known'), ...printsKnown })
export type PrintsKnown = z.infer<typeof printsKnownAnswer>

const madeFilm = z.object({
  id: z.string(),
  /** In the order of printing, from 1. */
  place: z.number(),
  ink: z.string(),
  /** How much of the artwork is black, counted from its bits. */
  coverageShare: z.number(),
  /** Addresses: true-size PDF, one for all where they lie side by side; and 1-bit TIFF. */
  pdf: z.string(),
  tiff: z.string(),
  /** The film of the shop that it became. */
  film: named.nullable(),
})
export type MadeFilm = z.infer<typeof madeFilm>

const artworkHead = {
  id: z.string(),
  name: z.string(),
  /** Waiting: nobody looked at it yet. Failed: no film can be made of it. */
  status: z.enum(['waiting', 'ready', 'failed']),
  /** What failed and what to do; null otherwise. */
  message: z.string().nullable(),
}

export const artworkList = z.object({
  kind: z.literal('artworks'),
  artworks: z.array(z.object({ ...artworkHead, ticket: named.nullable(), films: z.number() })),
})
export type ArtworkList = z.infer<typeof artworkList>

export const artwork = z.object({
  kind: z.literal('artwork'),
  demo: z.boolean(),
  ...artworkHead,
  warnings: z.array(z.string()),
  ticket: named
    .extend({
      code: z.string(),
      /** In the order of printing. */
      layers: z.array(
        z.object({
          id: z.string(),
          place: z.number(),
          shortName: z.string(),
          ink: ink.nullable(),
        }),
      ),
    })
    .nullable(),
  /** Width over height. */
  proportion: z.number().nullable(),
  /** Its true width, where it states one. */
  widthMm: z.number().nullable(),
  picture: artworkPicture.nullable(),
  /** Its samples are of other inks of its own than the plan names; those of the plan are being made. */
  looksAgain: z.boolean(),
  plan: plan.nullable(),
  fabric: z.string().nullable(),
  /** For the blanks. */
  fabrics: z.array(
    named.extend({ threadsPerCm: z.number(), threadUm: z.number(), dyed: z.boolean() }),
  ),
  inks: z.array(ink),
  ...printsKnown,
  /** Its samples are four inks that its maker parted. */
  statesCmyk: z.boolean(),
  tickets: z.array(named),
  /** How the newest making stands; null while nobody asked for one. */
  making: z
    .object({
      status: z.enum(['waiting', 'making', 'done', 'failed', 'stopped']),
      progressShare: z.number(),
      /** What is being done, in a few words. */
      words: z.string().nullable(),
      message: z.string().nullable(),
    })
    .nullable(),
  /** The newest films, and the plan they were made by. */
  made: z
    .object({
      plan,
      widthMm: z.number(),
      heightMm: z.number(),
      films: z.array(madeFilm),
      /** An address. */
      proof: z.string(),
    })
    .nullable(),
})
export type Artwork = z.infer<typeof artwork>

/** Query of an upload; the file itself is the body, its name in the header x-file-name (URI encoded). */
export const artworkQuestion = z.object({ ticket: id.optional() }).strict()
export type ArtworkQuestion = z.infer<typeof artworkQuestion>

/** What somebody settles about artwork and its films. */
export const artworkChange = z
  .object({ name: z.string().trim().min(1).max(120), plan, fabric: id, ticket: id.nullable() })
  .partial()
  .strict()
export type ArtworkChange = z.infer<typeof artworkChange>

/** A made film becomes a film of the shop, to be forecast. */
export const shopFilm = z
  .object({ layer: id.optional(), base: id.optional(), medium: id.optional() })
  .strict()
export type ShopFilm = z.infer<typeof shopFilm>
