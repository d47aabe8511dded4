import { z } from 'zod'
import { queryNumber } from './queryNumber.ts'

/** How a film stands: its file is here; being read; ready to be looked at; could not be read. */
export const filmStatus = z.enum(['waiting', 'reading', 'ready', 'failed'])

/** What a photo told of a film that was read from it. */
export const filmByPhoto = z.object({
  /** The density of a pixel is right to about this, between the two of the range. */
  densitySd: z.number(),
  densityRange: z.object({ low: z.number(), high: z.number() }),
  /** Thinner lines are drawn paler than they are. */
  smallestLineUm: z.number(),
  /** Whether a step wedge was read beside it. */
  wedge: z.boolean(),
  /** What its marks look to be made with, in a sentence; of the shop's media those it names. */
  looksLike: z
    .object({
      says: z.string(),
      media: z.array(z.object({ name: z.string(), chance: z.number() })),
    })
    .nullable(),
})
export type FilmByPhoto = z.infer<typeof filmByPhoto>

export const film = z.object({
  kind: z.literal('film'),
  id: z.string(),
  name: z.string(),
  demo: z.boolean(),
  status: filmStatus,
  /** 0 … 1 while it is being read. */
  progressShare: z.number(),
  /** What failed and what to do; null otherwise. */
  message: z.string().nullable(),
  warnings: z.array(z.string()),
  widthMm: z.number().nullable(),
  heightMm: z.number().nullable(),
  pixelUm: z.number().nullable(),
  base: z.string().nullable(),
  medium: z.string().nullable(),
  /** null for a film that did not come by photo. */
  byPhoto: filmByPhoto.nullable(),
  /** Marks paler than this stay shut as the printer asked; null when nobody was asked. */
  marksAbove: z.number().nullable(),
  /** Faint lines that may be underdrawing; null when there are none. */
  underdrawing: z
    .object({
      paleBelow: z.number(),
      lengthMm: z.number(),
      answer: z.enum(['prints', 'stays shut']).nullable(),
    })
    .nullable(),
})
export type Film = z.infer<typeof film>

export const filmList = z.object({ kind: z.literal('films'), films: z.array(film) })
export type FilmList = z.infer<typeof filmList>

/** Query of an upload; the file itself is the body, its name in the header x-file-name (URI encoded). */
export const uploadQuestion = z
  .object({
    resolutionDpi: queryNumber(z.coerce.number().min(50).max(6000)).optional(),
    solidDensity: queryNumber(z.coerce.number().min(0.3).max(6)).optional(),
    as: z.enum(['transmission', 'coverage']).optional(),
    base: z.string().optional(),
  })
  .strict()
export type UploadQuestion = z.infer<typeof uploadQuestion>

/** What a printer settles about a film. */
export const filmChange = z
  .object({
    name: z.string().trim().min(1).max(120),
    underdrawing: z.enum(['prints', 'stays shut']),
    base: z.string(),
    medium: z.string(),
  })
  .partial()
  .strict()
export type FilmChange = z.infer<typeof filmChange>

/** A place on the film worth looking at, worst first. */
export const finding = z.object({
  number: z.number(),
  xMm: z.number(),
  yMm: z.number(),
  widthUm: z.number(),
  density: z.number(),
  effectiveDensity: z.number(),
  /** Up to here it opens, on this unit's counter. */
  opensUpToLu: z.number(),
  /** How far the marks around it reach that are about as weak. */
  reach: z
    .object({ leftMm: z.number(), topMm: z.number(), rightMm: z.number(), bottomMm: z.number() })
    .optional(),
})
export type Finding = z.infer<typeof finding>

/**
 * A pyramid of tiles: level 0 is the film's own pixels, each next level half as fine.
 *
 * A tile is a zlib stream of planes of tileSide² bytes, one after another; cells outside the film
 * are clear. Level 0: the leak code's high byte, its low byte (its last four bits 0), the film's
 * density in fiftieths from −0.1. Other levels: four leak codes >> 8 in rising order, each for a
 * quarter of what the cell speaks of, that film density, the share of marks 0 … 255. A cell speaks
 * of its marks where it has any, else of its ground. A tile that is clear film all over is not
 * stored: status 204.
 */
export const pyramid = z.object({
  tileSide: z.number(),
  levels: z.array(z.object({ cellPx: z.number(), across: z.number(), down: z.number() })),
  /** The finest level that is there; tiles of finer ones are still being made: status 404. */
  finest: z.number(),
})
export type Pyramid = z.infer<typeof pyramid>

/**
 * A film under one setup: everything that turns a dose into a picture without asking again. The
 * pyramid may come while the status is still `reading`: then the findings and `along` follow.
 */
export const filmForecast = z.object({
  kind: z.literal('film forecast'),
  id: z.string(),
  status: filmStatus,
  progressShare: z.number(),
  message: z.string().nullable(),
  pyramid: pyramid.nullable(),
  /** Surface doses on this unit's counter with the film base counted in: best estimates. */
  gelDoseLu: z.number(),
  holdDoseLu: z.number(),
  throughDoseLu: z.number(),
  findings: z.array(finding),
  /** The film's own marks in equal shares of their length: up to which dose each stays open. */
  along: z.array(z.number()),
})
export type FilmForecast = z.infer<typeof filmForecast>
