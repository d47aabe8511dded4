import type { Lab } from '../colour/space.ts'
import type { Halftone } from '../halftone/halftone.ts'
import type { PrintedTones } from '../halftone/toneCurve.ts'

/** Tones of an ink that are printed as they are, 0 … 1; those beyond go to the nearest, or to none or solid. */
export type ToneRange = Readonly<{
  least: number
  most: number
  /** Those beyond are made of scattered dots as large as the palest tone's. */
  scatters?: boolean
}>

export type Ink = Readonly<{
  name: string
  /** As printed solid on white; null where only its name is known. */
  lab: Lab | null
  /** How much of what lies under it a solid hides, 0 … 1. */
  opacity: number
  /** Colours of the artwork that become it, flat or with their tones; left out: its own. */
  takes?: readonly Lab[]
  /** The angle of its dots; null for the plan's own. */
  angleDeg: number | null
  /** Left out: all of its tones are printed. */
  tones?: ToneRange
  /** What its tones were measured to print as; left out: as they are on the film. */
  printed?: PrintedTones
  /** How far its edges move outward; left out: as far as those of all. */
  edgeUm?: number
  /**
   * A pale ink for highlights, printed last: nothing up to this lightness 0 … 1, solid just below
   * white. White itself is bare stock.
   */
  highlightsFrom?: number
}>

/** How much ink may lie at one place. */
export type InkLimits = Readonly<{
  /** In solids. */
  coverage: number
  /** How many inks. */
  inks: number
}>

/** `line`: flat colours; `spot`: tones of chosen inks; `process`: four inks; `single`: one ink. */
export type Mode = 'single' | 'line' | 'process' | 'spot'

/** A white or pale ink printed first, so that the others show on dark stock. */
export type Underbase = Readonly<{ name: string; lab: Lab; chokeUm: number }>

export type Marks = Readonly<{
  registration: boolean
  label: boolean
  scaleBar: boolean
  stepStrip: boolean
}>

export type Sheet = Readonly<{
  widthMm: number
  heightMm: number
  overlapMm: number
  /** Parts keep off the sheet's rim, where lines say where to cut and words which part it is. */
  cutMarks?: boolean
  /** Small films of all inks lie side by side in one PDF. */
  nest?: boolean
}>

export type FilmFormat = 'pdf' | 'tiff'

/** What films are wanted of an artwork. */
export type FilmPlan = Readonly<{
  size:
    | Readonly<{ kind: 'width'; widthMm: number }>
    | Readonly<{ kind: 'height'; heightMm: number }>
    | Readonly<{ kind: 'scale'; scale: number }>
  resolutionDpi: number
  mode: Mode
  /** In the order in which they are printed. */
  inks: readonly Ink[]
  /** null: no dots, black from half a tone up. Flat colours need none, but for a PDF's own tints. */
  halftone: Halftone | null
  /** How far each edge moves outward; inward where it is negative. */
  edgeUm: number
  underbase: Underbase | null
  /**
   * For tones on each other. Left out: for chosen inks what dries; for four inks nothing, which are
   * the artwork's own or take black for all grey.
   */
  limits?: InkLimits
  /** The stock as the proof shows it; left out: white. */
  paper?: Lab
  marks: Marks
  sheet: Sheet | null
  formats: readonly FilmFormat[]
}>
