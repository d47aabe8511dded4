import { z } from 'zod'
import { EDITION_KINDS } from '../core/ticket/edition.ts'
import { STATIONS } from '../core/ticket/road.ts'
import { filmStatus } from './films.ts'
import { KEY_LIKE } from './keys.ts'
import { day, named } from './tests.ts'

const station = z.enum(STATIONS)
const stationState = z.enum(['not yet', 'here now', 'done', 'make again'])
/** CIELAB under D50, as CSS has it too. */
const lab = z.tuple([z.number(), z.number(), z.number()])
const ink = named.extend({ lab, opacity: z.number() })
const sheets = z.number().int().min(0).max(1_000_000)
const shortText = z.string().trim().min(1).max(120)

/** What to do next on a ticket. */
const next = z.object({
  layer: z.string(),
  place: z.number(),
  ink: z.string(),
  station,
  /** Who can do it, by what they were shown. */
  who: z.object({ anybody: z.boolean(), names: z.array(z.string()), says: z.string() }),
})

const ticketHead = {
  id: z.string(),
  /** A letter and a number, as on its papers: H7. */
  code: z.string(),
  name: z.string(),
  owner: z.string().nullable(),
  paper: z.string().nullable(),
  editionCount: z.number().nullable(),
  closedOn: day.nullable(),
  next: next.nullable(),
}

export const ticketList = z.object({
  kind: z.literal('tickets'),
  /** Whoever asks has theirs first. */
  tickets: z.array(
    z.object({
      ...ticketHead,
      inks: z.array(ink),
      openLayers: z.number(),
      /** Films that are read, in the order of printing: a small print can be drawn of them. */
      drawn: z.array(z.object({ film: z.string(), ink })),
    }),
  ),
  /** For the blanks of a new one. */
  people: z.array(named),
  inks: z.array(ink),
  papers: z.array(named),
})
export type TicketList = z.infer<typeof ticketList>

export const layer = z.object({
  id: z.string(),
  /** In the order of printing, from 1. */
  place: z.number(),
  /** As on its papers: H7-K. */
  shortName: z.string(),
  ink: ink.nullable(),
  film: named.extend({ status: filmStatus }).nullable(),
  /** The screen that was chosen for it, by the tag it carries. */
  screen: named.nullable(),
  at: station.nullable(),
  /** How each of the seven stations stands, in their order. */
  road: z.array(stationState),
  pulled: z.number(),
  spoiled: z.number(),
  good: z.number(),
  spoils: z.array(z.object({ sheets: z.number(), why: z.string() })),
})
export type Layer = z.infer<typeof layer>

/** A print from artwork to edition. */
export const ticket = z.object({
  kind: z.literal('ticket'),
  demo: z.boolean(),
  ...ticketHead,
  layers: z.array(layer),
  /** Sheets of paper to begin with; null while nobody said how many are wanted. */
  sheetsToPrepare: z.number().nullable(),
  /** What became of the sheets that came through, as it was tallied. */
  given: z.object({
    numbered: z.number(),
    artistProofs: z.number(),
    proofs: z.number(),
    signed: z.number(),
    /** Good sheets that were not given out yet. */
    left: z.number(),
  }),
  /** The card it was closed with. */
  edition: z
    .object({
      numbered: z.number(),
      artistProofs: z.number(),
      proofs: z.number(),
      archivePlace: z.string().nullable(),
      signedBy: z.string().nullable(),
    })
    .nullable(),
  /** Newest first. */
  log: z.array(
    z.object({
      id: z.string(),
      on: day,
      /** Its short name; the ticket's own code for what is told of the edition. */
      layer: z.string(),
      says: z.string(),
      /** Who told it; null: nobody was signed in. */
      by: z.string().nullable(),
    }),
  ),
  films: z.array(named),
  inks: z.array(ink),
  people: z.array(named),
  /** Papers of the shelf, for the blank. */
  papers: z.array(named),
})
export type Ticket = z.infer<typeof ticket>

const mostLayers = 24
/** An ink of the shop by its id, or one that is new to it: its name and its colour on paper. */
const inkAsked = z.union([
  z.string(),
  z.object({ name: shortText, colour: z.string().regex(/^#[0-9a-fA-F]{6}$/, '#c3402f') }).strict(),
])
export type InkAsked = z.infer<typeof inkAsked>

export const newTicket = z
  .object({
    name: shortText,
    /** In the order of printing. */
    inks: z.array(inkAsked).min(1).max(mostLayers),
    owner: z.string().optional(),
    paper: shortText.optional(),
    editionCount: z.number().int().min(1).max(1_000_000).optional(),
  })
  .strict()
export type NewTicket = z.infer<typeof newTicket>

/** Made where it happened: what is sent twice under one key is taken down once. */
const key = z.string().regex(/^[0-9A-Za-z-]{8,64}$/, KEY_LIKE)
const happened = { key, layer: z.string(), happenedAt: z.iso.datetime().optional() }

/** Something that happened on a ticket, or that somebody settles. */
export const ticketAct = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('done'), ...happened, station }).strict(),
  z.object({ kind: z.literal('back'), ...happened, station, why: shortText }).strict(),
  z.object({ kind: z.literal('pulled'), ...happened, sheets: sheets.min(1).max(10_000) }).strict(),
  z
    .object({
      kind: z.literal('spoiled'),
      ...happened,
      sheets: sheets.min(1).max(10_000),
      why: shortText,
    })
    .strict(),
  /** Sheets that came through all layers are given out, or signed. */
  z
    .object({
      kind: z.literal('edition'),
      key,
      as: z.enum(EDITION_KINDS),
      sheets: sheets.min(1).max(10_000),
      /** Who signed them. */
      by: shortText.optional(),
      happenedAt: z.iso.datetime().optional(),
    })
    .strict(),
  /** An entry of the log was a mistake: kept, and not counted. */
  z.object({ kind: z.literal('take back'), entry: z.string() }).strict(),
  z.object({ kind: z.literal('film'), layer: z.string(), film: z.string() }).strict(),
  /** A screen for a layer; null: none any more. */
  z
    .object({ kind: z.literal('screen'), layer: z.string(), screen: z.string().nullable() })
    .strict(),
  z.object({ kind: z.literal('layer'), ink: inkAsked }).strict(),
  z
    .object({
      kind: z.literal('about'),
      name: shortText.optional(),
      owner: z.string().nullable().optional(),
      paper: shortText.nullable().optional(),
      editionCount: z.number().int().min(1).max(1_000_000).nullable().optional(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('close'),
      numbered: sheets,
      artistProofs: sheets.max(10_000),
      proofs: sheets.max(10_000),
      archivePlace: shortText.optional(),
      signedBy: shortText.optional(),
    })
    .strict(),
  z.object({ kind: z.literal('open again') }).strict(),
])
export type TicketAct = z.infer<typeof ticketAct>
