import { z } from 'zod'
import { CLEARANCE, LENGTH } from '../core/placement/problem.ts'
import { queryNumber } from './queryNumber.ts'
import { day, named } from './tests.ts'

const mm = z.number()
/** From the inside top left of the frame, as printed; on a glass from its back left corner. */
const coordinate = z.number().min(-LENGTH.high).max(LENGTH.high)
const length = z.number().min(LENGTH.low).max(LENGTH.high)
const clearance = z.number().min(CLEARANCE.low).max(CLEARANCE.high)
const id = z.string().min(1).max(80)
const mostFilms = 40
const mostScreens = 12

const size = z.object({ widthMm: mm, heightMm: mm })
const box = z.object({ xMm: mm, yMm: mm, widthMm: mm, heightMm: mm })

/** Where a sheet’s top left corner lies; turned is a quarter clockwise. */
const laidFilm = z
  .object({ film: id, xMm: coordinate, yMm: coordinate, turned: z.boolean() })
  .strict()
export type LaidFilm = z.infer<typeof laidFilm>

/** The outside of a screen’s frame on a glass, seen from above. */
const laidScreen = z
  .object({ unit: id, xMm: coordinate, yMm: coordinate, turned: z.boolean() })
  .strict()

/**
 * What is asked about: films by their ids with commas between, or those of a ticket’s layers that
 * are still to be exposed. What is left out is usual.
 */
const things = {
  ticket: id.optional(),
  films: z.string().max(4000).optional(),
  screen: id.optional(),
  unit: id.optional(),
  frameMm: queryNumber(z.coerce.number().min(CLEARANCE.low).max(CLEARANCE.high)).optional(),
  betweenMm: queryNumber(z.coerce.number().min(CLEARANCE.low).max(CLEARANCE.high)).optional(),
}
const onGlass = {
  /** Where the screen lies on the glass; in its middle unless given. */
  screenXMm: queryNumber(z.coerce.number().min(-LENGTH.high).max(LENGTH.high)).optional(),
  screenYMm: queryNumber(z.coerce.number().min(-LENGTH.high).max(LENGTH.high)).optional(),
  screenTurned: z.enum(['true', 'false']).optional(),
}
export const placeQuestion = z.object({ ...things, ...onGlass }).strict()
export type PlaceQuestion = z.infer<typeof placeQuestion>

/** A placement on paper: each film as ID:x:y, with :t behind it where it is turned. */
export const placePaper = z
  .object({
    ...things,
    ...onGlass,
    laid: z.string().min(1).max(8000),
    paper: z.enum(['a4', 'letter']).optional(),
  })
  .strict()
export type PlacePaper = z.infer<typeof placePaper>

const filmOnScreen = z.object({
  id: z.string(),
  name: z.string(),
  /** As on its papers; null: a loose film. */
  layer: z.string().nullable(),
  ink: named.extend({ lab: z.tuple([mm, mm, mm]), opacity: z.number() }).nullable(),
  widthMm: mm,
  heightMm: mm,
  /** What of the sheet has marks; null: nobody knows, so all of it counts. */
  marks: box.nullable(),
  /** Convex parts that hold all marks, as [x, y] from the sheet’s top left; null: nobody knows. */
  outline: z.array(z.array(z.tuple([mm, mm]))).nullable(),
})

const screenLaid = z.object({
  id: z.string(),
  name: z.string(),
  about: z.string(),
  insideWidthMm: mm,
  insideHeightMm: mm,
  /** Its outside; `measured` where somebody did, else with usual bars. */
  outside: size.extend({ measured: z.boolean() }),
})

/** An exposure unit’s glass, places from its back left corner. */
const glass = size.extend({
  unit: named,
  marks: z.array(box.extend({ id: z.string(), what: z.string() })),
  /** The light as a surface, for core/light/evennessMap; places from the front left corner. */
  light: z
    .object({
      low: z.object({ xMm: mm, yMm: mm }),
      high: z.object({ xMm: mm, yMm: mm }),
      coefficients: z.array(z.number()),
    })
    .nullable(),
})
export type Glass = z.infer<typeof glass>

const rule = z.enum([
  'clearance to the frame',
  'clearance between films',
  'keep-out',
  'sheet inside the frame',
])

/** Where films lie best, or by how much they miss. */
const best = z.object({
  verdict: z.enum(['fits', 'does not fit']),
  films: z.array(laidFilm),
  worst: z.object({ rule, shortMm: mm }),
  smallestFrame: z.object({ insideWidthMm: mm, insideHeightMm: mm }),
  proved: z.boolean(),
})

/** What one may want to lay, where no film was chosen. */
const offers = z.object({
  /** Films that are still to be exposed: those of open tickets, then those on none. */
  waiting: z.array(
    named.extend({
      layer: z.string().nullable(),
      ink: named.extend({ lab: z.tuple([mm, mm, mm]), opacity: z.number() }).nullable(),
      ticket: named.nullable(),
      /** What its layer was given, by name. */
      screen: z.string().nullable(),
    }),
  ),
  /** How each screen was laid last. */
  laid: z.array(
    z.object({
      screen: named,
      films: z.array(named),
      keptOn: day,
      /** When somebody said that all lies so; null: planned. */
      laidOn: day.nullable(),
    }),
  ),
})

const kept = z.object({
  id: z.string(),
  films: z.array(laidFilm),
  onGlass: laidScreen.nullable(),
  clearance: z.object({ frameMm: mm, betweenMm: mm }),
  keptOn: day,
  /** When somebody said that all lies so; null: planned. */
  laidOn: day.nullable(),
})

export const place = z.object({
  kind: z.literal('place'),
  demo: z.boolean(),
  screen: screenLaid.nullable(),
  films: z.array(filmOnScreen),
  /** Films that were asked for and have no size yet. */
  waiting: z.array(named.extend({ why: z.string() })),
  clearance: z.object({ frameMm: mm, betweenMm: mm }),
  /** Null where nobody told how large the glass is. */
  glass: glass.nullable(),
  onGlass: laidScreen.nullable(),
  /** Null while no film or no screen is chosen. */
  best: best.nullable(),
  /** How just these films were laid on this screen last. */
  kept: kept.nullable(),
  /** Null while a film is chosen. */
  offers: offers.nullable(),
  choices: z.object({
    screens: z.array(named.extend({ about: z.string() })),
    films: z.array(named.extend({ about: z.string().nullable(), not: z.string().nullable() })),
    units: z.array(named),
  }),
})
export type Place = z.infer<typeof place>

const laying = {
  screen: id,
  films: z.array(laidFilm).min(1).max(mostFilms),
  clearance: z.object({ frameMm: clearance, betweenMm: clearance }).strict().optional(),
  onGlass: laidScreen.optional(),
}
export const placeCheckAsked = z.object(laying).strict()
export type PlaceCheckAsked = z.infer<typeof placeCheckAsked>

/** A placement held against the rules, one answer a rule, and how it meets the wishes. */
export const placeCheck = z.object({
  kind: z.literal('place check'),
  verdict: z.enum(['fits', 'does not fit']),
  rules: z.array(
    z.object({ rule, leastMm: mm, askedMm: mm, shortMm: mm, films: z.array(z.string()) }),
  ),
  worst: z.object({ rule, shortMm: mm }),
  offCentreMm: z.object({ xMm: mm, yMm: mm }),
  /** Least and most light on the films’ marks, the middle of the glass being 1. */
  light: z.object({ least: z.number(), most: z.number() }).nullable(),
  /** What a ruler shows, from each side of each sheet. */
  dimensions: z.array(
    z.object({
      film: z.string(),
      side: z.enum(['left', 'top', 'right', 'bottom']),
      lengthMm: mm,
      reaches: z.enum(['frame', 'film']),
    }),
  ),
})
export type PlaceCheck = z.infer<typeof placeCheck>

/** Keeps a placement; `laid` where all lies so already. */
export const newPlacement = z.object({ ...laying, laid: z.boolean() }).strict()
export type NewPlacement = z.infer<typeof newPlacement>
export const placementKept = z.object({ kind: z.literal('placement'), placement: kept })
export type PlacementKept = z.infer<typeof placementKept>

/** Something on a glass that light should not cross. */
export const newGlassMark = z
  .object({
    unit: id,
    what: z.string().trim().min(1).max(80),
    xMm: coordinate.min(0),
    yMm: coordinate.min(0),
    widthMm: length,
    heightMm: length,
  })
  .strict()
export const glassTold = z.object({ kind: z.literal('glass'), glass })
export type GlassTold = z.infer<typeof glassTold>

/** Several screens on one glass, by their ids with commas between. */
export const screensQuestion = z
  .object({ unit: id.optional(), screens: z.string().min(1).max(2000) })
  .strict()
export const screensOnGlass = z.object({
  kind: z.literal('screens on the glass'),
  glass,
  screens: z.array(screenLaid),
  best: best.omit({ films: true }).extend({
    screens: z.array(z.object({ screen: z.string(), xMm: mm, yMm: mm, turned: z.boolean() })),
  }),
})
export type ScreensOnGlass = z.infer<typeof screensOnGlass>

export const MOST_FILMS_ASKED: number = mostFilms
export const MOST_SCREENS_ASKED: number = mostScreens
/** Why a film waits that comes by itself. */
export const STILL_READ = 'is still being read'
