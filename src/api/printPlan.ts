import { z } from 'zod'
import { day, named } from './tests.ts'

const lab = z.tuple([
  z.number().min(0).max(100),
  z.number().min(-160).max(160),
  z.number().min(-160).max(160),
])
const doubtful = z.object({
  value: z.number(),
  low: z.number(),
  high: z.number(),
  confidence: z.number(),
})
const side = z.number().min(20).max(10_000)
const size = z.object({ widthMm: side, heightMm: side })
const money = z.number().min(0).max(1_000_000)
const registerShare = z.object({
  name: z.string().trim().min(1).max(60),
  sdMm: z.number().min(0).max(10),
  shape: z.enum(['bell', 'even', 'one way']),
})

/** In whose units the sentences are written; without it the shop's. */
export const writingAsked = z.object({ units: z.enum(['metric', 'imperial']).optional() }).strict()
const units = z.enum(['metric', 'imperial'])
/** By ISO 4217, like EUR. */
const currency = z.string().regex(/^[A-Z]{3}$/, 'EUR')

/** A sentence with its numbers, and why it says so. */
const line = z.object({ says: z.string(), why: z.array(z.string()) })

/** What somebody settles about printing a ticket; what is left out is as usual. */
export const planAsked = z
  .object({
    /** A paper of the shelf. */
    paper: z.string(),
    proofs: z.number().int().min(0).max(10_000),
    spoiledShare: z.number().min(0).max(0.9),
    offContactMm: z.number().min(0).max(30),
    /** False: it came into the room today. */
    paperRested: z.boolean(),
    /** In place of the usual shares of the register. */
    shares: z.array(registerShare).min(1).max(12),
    potCm3: z.number().min(0).max(5000),
    pullSec: z.number().min(1).max(3600),
    dryMin: z.number().min(0).max(10_000),
    shelves: z.number().int().min(1).max(100_000),
    /** The sheet that one print is on, where it is cut from the paper that is bought. */
    sheetMm: size,
    /** For one layer, in the shop's money. */
    screenCost: money,
    filmCost: money,
    /** By layer: the ink as it was mixed in the end, for the edition's card. */
    mixed: z.record(z.string().max(40), z.string().trim().min(1).max(200)),
  })
  .partial()
  .strict()
export type PlanAsked = z.infer<typeof planAsked>

const layerPlan = z.object({
  id: z.string(),
  line,
  shortName: z.string(),
  ink: z.string().nullable(),
  isPrinted: z.boolean(),
  screen: z.object({ name: z.string(), isChosen: z.boolean(), fabric: z.string() }).nullable(),
  /** Of the sheet of film; null while it is not read. */
  film: size.extend({ coverShare: z.number(), coveredCm2: z.number() }).nullable(),
  gap: z
    .object({
      offContactMm: z.number(),
      isSet: z.boolean(),
      growthUm: z.number().nullable(),
      liftNewtonPerCm: z.number(),
      tensionNewtonPerCm: z.number(),
      isTensionMeasured: z.boolean(),
    })
    .nullable(),
  wetFilmUm: doubtful.nullable(),
  /** To be mixed for the whole run, with the pot. */
  inkToMix: z
    .object({
      onPaperCm3: doubtful,
      potCm3: z.number(),
      mixCm3: z.number(),
      mixG: z.number(),
      leftG: z.number(),
    })
    .nullable(),
  /** Null while no stock is counted, or there is not enough of it. */
  recipe: z
    .object({
      parts: z.array(z.object({ name: z.string(), grams: z.number() })),
      deltaE: z.number(),
      doubtDeltaE: z.number(),
    })
    .nullable(),
  squeegee: z
    .object({
      widthMm: z.number(),
      hardnessShore: z.object({ low: z.number(), high: z.number() }),
      angleDeg: z.number(),
      shortMm: z.number(),
    })
    .nullable(),
  dryMin: z.number().nullable(),
  time: z
    .object({
      shelvesWanted: z.number(),
      pullMin: z.number(),
      untilDryMin: z.number(),
      waitMin: z.number(),
    })
    .nullable(),
  /** Newest first. */
  checks: z.array(
    z.object({
      id: z.string(),
      on: day,
      how: z.enum(['measured', 'photo']),
      lab: z.tuple([z.number(), z.number(), z.number()]),
      deltaE: z.number(),
      doubtDeltaE: z.number(),
      verdict: z.enum(['agrees', 'differs', 'cannot tell']),
    }),
  ),
})

/** What printing an edition takes. */
export const printPlan = z.object({
  kind: z.literal('print plan'),
  demo: z.boolean(),
  units,
  /** What prices are in; null: nobody said. */
  currency: currency.nullable(),
  asked: planAsked,
  /** Order, register, paper, time, cost. */
  lines: z.array(line),
  editionCount: z.number().nullable(),
  wanted: z.number().nullable(),
  toPull: z.number().nullable(),
  spoiledShare: z.number(),
  shares: z.array(registerShare),
  register: z.object({
    sdMm: z.number(),
    biasMm: z.number(),
    /** Nineteen prints in twenty lie within so much. */
    trapMm: z.number(),
    largest: z.object({ name: z.string(), varianceShare: z.number() }),
  }),
  /** Ids of layers in the order to print them, and pairs that stand the wrong way round now. */
  order: z.object({
    layers: z.array(z.string()),
    isAsGiven: z.boolean(),
    against: z.array(
      z.object({
        first: z.string(),
        second: z.string(),
        why: z.enum(['lighter over darker', 'large over small', 'white ground']),
      }),
    ),
  }),
  layers: z.array(layerPlan),
  /** Of the paper that was chosen; null where none was, or the print does not fit on it. */
  paper: z
    .object({
      name: z.string(),
      fromOne: z.number(),
      isTurned: z.boolean(),
      wanted: z.number(),
      onShelf: z.number(),
      toBuy: z.number(),
    })
    .nullable(),
  cost: z
    .object({
      lines: z.array(
        z.object({
          what: z.enum(['paper', 'ink', 'screens', 'films']),
          cost: z.number().nullable(),
        }),
      ),
      total: z.number(),
      perPrint: z.number(),
      missing: z.array(z.enum(['paper', 'ink', 'screens', 'films'])),
    })
    .nullable(),
  papers: z.array(named),
})
export type PrintPlanTold = z.infer<typeof printPlan>

const srgb = z.tuple([z.number().min(0).max(1), z.number().min(0).max(1), z.number().min(0).max(1)])

/** A layer's colour on the print: read by an instrument, or off a photo beside a grey card. */
export const colourAsked = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('measured'),
      layer: z.string(),
      readings: z.array(lab).min(1).max(50),
    })
    .strict(),
  z
    .object({
      kind: z.literal('photo'),
      layer: z.string(),
      /** Means of stored sRGB over the patch and over the card. */
      patch: srgb,
      card: srgb,
      /** L of the card; 49.5 is 18 % grey. */
      cardL: z.number().min(10).max(99),
    })
    .strict(),
  z.object({ kind: z.literal('take back'), check: z.string() }).strict(),
])
export type ColourAsked = z.infer<typeof colourAsked>

/** What is on the shelf for printing. */
export const stock = z.object({
  kind: z.literal('stock'),
  currency: currency.nullable(),
  inks: z.array(
    named.extend({
      lab: z.tuple([z.number(), z.number(), z.number()]),
      /** Null: never counted. */
      grams: z.number().nullable(),
      pricePerKg: z.number().nullable(),
    }),
  ),
  papers: z.array(
    named.extend({
      widthMm: z.number(),
      heightMm: z.number(),
      sheets: z.number(),
      pricePerSheet: z.number().nullable(),
    }),
  ),
})
export type Stock = z.infer<typeof stock>

const name = z.string().trim().min(1).max(120)
/** What was counted, or what prices are in; a paper without an id is new. */
export const stockCounted = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('ink'),
      ink: z.string(),
      grams: z.number().min(0).max(1_000_000),
      pricePerKg: money.nullable(),
    })
    .strict(),
  z
    .object({
      kind: z.literal('paper'),
      paper: z.string().optional(),
      name,
      widthMm: side,
      heightMm: side,
      sheets: z.number().int().min(0).max(1_000_000),
      pricePerSheet: money.nullable(),
    })
    .strict(),
  z.object({ kind: z.literal('currency'), currency }).strict(),
])
export type StockCounted = z.infer<typeof stockCounted>
