import type { ArtworkPicture } from '../../api/artwork.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import type { HoldableTones } from '../../core/fabric/holdableTones.ts'
import type { Moire } from '../../core/halftone/moire.ts'
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
  Readonly<{ kind: 'preview'; number: number; plan: FilmPlan; fabric: Weave | null }>

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
  }>

/** A plate as the page speaks of it. */
export type PlateSeen = Omit<PreviewPlate, 'tones'> & Readonly<{ moire: Moire | null }>

export type Preview = Readonly<{
  widthPx: number
  heightPx: number
  plates: readonly PlateSeen[]
  /** What lies on the table when so many films are rolled back. */
  stages: readonly ImageBitmap[]
  holds: HoldableTones | null
  findings: readonly PreviewFinding[]
}>

export type Dots = LoupeDots & Readonly<{ pixelUm: number }>

export type PreviewWord =
  | Readonly<{ kind: 'preview'; number: number; preview: Preview; tookMs: number }>
  | Readonly<{ kind: 'loupe'; number: number; dots: Dots }>
  /** Null: it could not be reached. */
  | Readonly<{ kind: 'failed'; number: number; message: string | null }>
