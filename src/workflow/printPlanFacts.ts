import type { Lab } from '../core/colour/space.ts'
import type { Weave } from '../core/fabric/grades.ts'
import type { StockInk } from '../core/print/inkRecipe.ts'
import type { SheetSize } from '../core/print/paperToBuy.ts'
import type { RegisterShare } from '../core/print/registerBudget.ts'
import type { Um } from '../core/units/quantity.ts'

/** What somebody settled; all else is as usual. */
export type PlanAsked = Readonly<{
  proofs?: number | undefined
  spoiledShare?: number | undefined
  offContactMm?: number | undefined
  paperRested?: boolean | undefined
  shares?: readonly RegisterShare[] | undefined
  potCm3?: number | undefined
  pullSec?: number | undefined
  dryMin?: number | undefined
  shelves?: number | undefined
  sheetMm?: SheetSize | undefined
  screenCost?: number | undefined
  filmCost?: number | undefined
}>

export type PlanInk = Readonly<{ name: string; lab: Lab; opacity: number; isMeasured: boolean }>

export type PlanScreen = Readonly<{
  name: string
  /** It was chosen for the layer; else it is the shop's usual one. */
  isChosen: boolean
  weave: Weave
  /** Measured; null: by the tables. */
  thicknessUm: Um | null
  insideMm: SheetSize
  tensionNewtonPerCm: number | null
  /** Emulsion over mesh, measured. */
  overMeshUm: number | null
}>

/** Size and cover of a film; edgeShare of its marks lies close to an edge. */
export type PlanFilm = Readonly<{ sizeMm: SheetSize; coverShare: number; edgeShare: number }>

export type PlanLayer = Readonly<{
  id: string
  shortName: string
  ink: PlanInk | null
  film: PlanFilm | null
  screen: PlanScreen | null
  isPrinted: boolean
}>

export type PlanStock = StockInk &
  Readonly<{ name: string; pricePerKg: number | null; isMeasured: boolean }>

export type PlanPaper = Readonly<{
  sizeMm: SheetSize
  onShelf: number
  pricePerSheet: number | null
}>

export type PlanFacts = Readonly<{
  editionCount: number | null
  layers: readonly PlanLayer[]
  stock: readonly PlanStock[]
  paper: PlanPaper | null
}>
