import type { ArtworkPicture } from '../../api/artwork.ts'
import type { Lab } from '../../core/colour/space.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import type { HoldableTones } from '../../core/fabric/holdableTones.ts'
import type { Moire } from '../../core/halftone/moire.ts'
import type { PictureColour } from '../../core/separation/palette.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { LoupeDots } from '../../workflow/makeFilms/loupeDots.ts'
import type { PreviewFinding } from '../../workflow/makeFilms/previewFindings.ts'
import type { PreviewPlate } from '../../workflow/makeFilms/previewPlates.ts'

/** Artwork that is looked at: its samples are fetched by the worker. */
export type Looked = Readonly<{
  artwork: string
  picture: ArtworkPicture
  proportion: number
  widthMm: number | null
}>

export type PreviewAsk = Looked &
  Readonly<{
    kind: 'preview'
    number: number
    plan: FilmPlan
    fabric: Weave | null
    inkLimit: number
    /** A picture alone with half as many pixels a side will do, where the whole is to be worked out first. */
    isSketch: boolean
  }>

/** A place on the print, as parts of its width and height, under the loupe. */
export type LoupeAsk = Looked &
  Readonly<{
    kind: 'loupe'
    number: number
    plan: FilmPlan
    plate: number
    xShare: number
    yShare: number
    /** What is seen from rim to rim. */
    acrossMm: number
    /** One film's stencil on the fabric, or the print of all. */
    view: LoupeView
  }>

export type LoupeView = 'stencil' | 'print'

/** Which inks: of the shop's, or the flat colours that are there. */
export type InksAsk = Looked &
  Readonly<{
    kind: 'inks'
    number: number
    most: number
    mode: 'line' | 'spot'
    paper: Lab | null
    stock: readonly Readonly<{ name: string; lab: Lab; opacity: number }>[]
  }>

/** The artwork itself, for the eye. */
export type ArtworkAsk = Looked & Readonly<{ kind: 'artwork'; number: number }>

/** Inks of the shop, how far their print would be from the artwork, and whether one more is worth it. */
export type InksFound = Readonly<{
  choices: readonly Readonly<{
    names: readonly string[]
    meanDifference: number
    worstDifference: number
    isWorth: boolean
  }>[]
  /** The artwork's own flat colours, as many as were asked for. */
  colours: readonly PictureColour[]
}>

/** A plate as the page speaks of it. */
export type PlateSeen = Omit<PreviewPlate, 'tones' | 'printed'> &
  Readonly<{
    moire: Moire | null
    /** Nothing on it is dark enough to be printed. */
    isEmpty: boolean
  }>

export type Preview = Readonly<{
  widthPx: number
  heightPx: number
  plates: readonly PlateSeen[]
  /** What lies on the table when so many films are rolled back; a sketch of it has fewer pixels. */
  stages: readonly ImageBitmap[]
  holds: HoldableTones | null
  findings: readonly PreviewFinding[]
}>

/** Stages null: as they were sent last. Findings null: a sketch, in which nobody looks for any. */
export type PreviewSent = Omit<Preview, 'stages' | 'findings'> &
  Readonly<{ stages: readonly ImageBitmap[] | null; findings: Preview['findings'] | null }>

/** Dots, and where the print was asked for its colours, three a pixel. */
export type Dots = LoupeDots & Readonly<{ pixelUm: number; print: Uint8Array | null }>

export type PreviewWord =
  | Readonly<{ kind: 'preview'; number: number; preview: PreviewSent; tookMs: number }>
  | Readonly<{ kind: 'loupe'; number: number; dots: Dots }>
  | Readonly<{ kind: 'inks'; number: number; found: InksFound }>
  | Readonly<{ kind: 'artwork'; number: number; seen: ImageBitmap }>
  /** Null: it could not be reached. */
  | Readonly<{ kind: 'failed'; number: number; message: string | null }>
