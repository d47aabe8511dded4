import { z } from 'zod'
import { countsIn, outcome } from './shop.ts'

/** What a photo is of: a film on a light table; or, against the light, a screen, a wedge, a strip. */
export const photoSubject = z.enum(['film', 'screen', 'wedge', 'strip'])

/** A place in a photo in its pixels, from the top left of the upright picture. */
export const photoPoint = z.object({
  x: z.number().min(-100_000).max(200_000),
  y: z.number().min(-100_000).max(200_000),
})
export type PhotoPoint = z.infer<typeof photoPoint>

/** Clockwise from the top left of the sheet as it should read. */
const corners = z.tuple([photoPoint, photoPoint, photoPoint, photoPoint])

/** A wedge as it is printed on its packet. */
export const photoWedge = z
  .object({
    steps: z.number().int().min(2).max(61),
    firstDensity: z.number().min(0).max(1),
    increment: z.number().min(0.02).max(0.5),
  })
  .strict()

/** A test strip as its film was printed, and which of its marks are judged. */
export const photoStrip = z
  .object({
    bandCounts: z.array(z.number().min(0.1).max(100_000)).min(3).max(12),
    countsIn,
    paper: z.enum(['a4', 'letter']),
    marks: z.union([
      z.literal('printed'),
      /** Drawn by hand through all bands, in this column of so many from the left. */
      z
        .object({ column: z.number().int().min(1).max(6), of: z.number().int().min(1).max(6) })
        .strict(),
    ]),
  })
  .strict()
export type PhotoStrip = z.infer<typeof photoStrip>

/** Where to look; what is left out is looked for, but for a wedge’s corners. */
export const photoAsk = z
  .object({
    corners: corners.optional(),
    /** Of the sheet whose corners these are; a strip’s are the points round the bands that stand. */
    sizeMm: z
      .object({
        widthMm: z.number().min(10).max(3000),
        heightMm: z.number().min(10).max(3000),
      })
      .strict()
      .optional(),
    /** The middle of the wedge's clear end, and of its dark end. */
    wedge: z.tuple([photoPoint, photoPoint]).optional(),
    wedgeDensities: photoWedge.optional(),
    strip: photoStrip.optional(),
    /** Of a screen: the film it is checked against. */
    film: z.string().max(80).optional(),
    /** Of a screen: faults smaller than this are left alone. */
    limitUm: z.number().min(1).max(100_000).optional(),
  })
  .strict()
export type PhotoAsk = z.infer<typeof photoAsk>

/** What the photo of a film told. */
export const photoReading = z.object({
  widthMm: z.number(),
  heightMm: z.number(),
  pixelUm: z.number(),
  /** The density of a pixel is right to about this. */
  densitySd: z.number(),
  densityRange: z.object({ low: z.number(), high: z.number() }),
  smallestLineUm: z.number(),
  /** Where the sheet lay in the photo; as asked, or as found. */
  corners,
  mat: z.boolean(),
  wedge: z.tuple([photoPoint, photoPoint]).nullable(),
  /** What its steps were taken for. */
  wedgeDensities: photoWedge,
  /** The light table's darkest place, as a share of its brightest. */
  evenness: z.number(),
  warnings: z.array(z.string()),
  /** What its marks look to be made with, in a sentence; of the shop's media those it names. */
  looksLike: z
    .object({
      says: z.string(),
      media: z.array(z.object({ name: z.string(), chance: z.number() })),
    })
    .nullable(),
  /** The straightened film, as it will be forecast: an address. */
  picture: z.string(),
})
export type PhotoReading = z.infer<typeof photoReading>

export const screenFault = z.enum([
  'blocked',
  'veil',
  'pinhole',
  'scratch',
  'broken edge',
  'missing area',
])
export type ScreenFault = z.infer<typeof screenFault>

/** A difference between the screen and its film; places in film millimetres from its top left. */
export const screenFinding = z.object({
  number: z.number(),
  kind: screenFault,
  xMm: z.number(),
  yMm: z.number(),
  areaMm2: z.number(),
  widthUm: z.number(),
})
export type ScreenFinding = z.infer<typeof screenFinding>

/** What the photo of a screen told against its film. */
export const inspection = z.object({
  verdict: z.enum(['good', 'wash more', 'spot it', 'make again']),
  mirrored: z.boolean(),
  /** Smaller faults do not show in this photo. */
  resolutionUm: z.number(),
  widthMm: z.number(),
  heightMm: z.number(),
  findings: z.array(screenFinding),
  warnings: z.array(z.string()),
  /** The screen straightened and laid over the film, and the film: addresses of equal pictures. */
  screenPicture: z.string(),
  filmPicture: z.string(),
  /** The places at true size, to take to the screen: the address of a PDF; null where there are none. */
  spottingList: z.string().nullable(),
})
export type Inspection = z.infer<typeof inspection>

const stepTold = z.object({
  step: z.number(),
  chance: z.number(),
  /** Nine times in ten it is one of these. */
  low: z.number(),
  high: z.number(),
})

/** What the photo of a test told, for somebody to nod at before it is taken down. */
export const photoTest = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('wedge'),
    lastSolid: stepTold,
    firstClear: stepTold,
    /** Of each step: how much of the stencil is left, 0 … 1. */
    left: z.array(z.number()),
    warnings: z.array(z.string()),
  }),
  z.object({
    kind: z.literal('strip'),
    bands: z.array(
      z.object({
        doseLu: z.number(),
        grade: outcome,
        chance: z.number(),
        next: z.object({ grade: outcome, chance: z.number() }),
        left: z.number(),
        open: z.number().nullable(),
      }),
    ),
    warnings: z.array(z.string()),
  }),
])
export type PhotoTest = z.infer<typeof photoTest>

export const photo = z.object({
  kind: z.literal('photo'),
  id: z.string(),
  subject: photoSubject,
  name: z.string(),
  film: z.object({ id: z.string(), name: z.string() }).nullable(),
  /**
   * Waiting: nobody looked at it yet. Seen: it can be shown, and where to look can be said. Done:
   * the answer is there. Failed: it is no photo that can be read.
   */
  status: z.enum(['waiting', 'seen', 'reading', 'done', 'failed']),
  /** 0 … 1 while it is being read. */
  progressShare: z.number(),
  /** What is being done, in a few words. */
  progressWords: z.string().nullable(),
  /** Why there is no answer, and what to do; null otherwise. */
  message: z.string().nullable(),
  widthPx: z.number().nullable(),
  heightPx: z.number().nullable(),
  /** The upright photo, made small: an address. */
  preview: z.string().nullable(),
  asked: photoAsk.nullable(),
  reading: photoReading.nullable(),
  inspection: inspection.nullable(),
  test: photoTest.nullable(),
})
export type Photo = z.infer<typeof photo>

/** Query of an upload; the file itself is the body, its name in the header x-file-name (URI encoded). */
export const photoQuestion = z
  .object({ subject: photoSubject, film: z.string().max(80).optional() })
  .strict()
export type PhotoQuestion = z.infer<typeof photoQuestion>

/** The photo's reading becomes a film; a photo cannot tell whether it is mirrored or upside down. */
export const photoFilm = z
  .object({
    name: z.string().trim().min(1).max(120).optional(),
    mirrored: z.boolean(),
    upsideDown: z.boolean().optional(),
    /** What its marks are made with. */
    medium: z.string().max(80).optional(),
    base: z.string().max(80).optional(),
  })
  .strict()
export type PhotoFilm = z.infer<typeof photoFilm>

/** The printable mat that a photo is read by. */
export const matPaper = z.object({ size: z.enum(['a4', 'letter', 'a3']).optional() }).strict()
