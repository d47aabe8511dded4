import type { Lab } from '../../core/colour/space.ts'
import type { Passing } from '../../workflow/makeFilms/passingInks.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import type { KeptSamples } from '../../workflow/makeFilms/writeSamples.ts'
import type { InkedLayer } from './artworkThings.ts'

/** Artwork, by where it lies and by what its owner calls it. */
type ArtworkFile = Readonly<{ path: string; name: string }>

/** What is done with artwork in a process of its own. */
export type ArtworkWork =
  /** Looked at: its size, and samples for the page. */
  | Readonly<{
      kind: 'look'
      artwork: ArtworkFile
      samplesPath: string
      /** What passes through; null: what would, if the artwork's own inks were printed. */
      passing: Passing | null
    }>
  /** Its films, written into a folder. */
  | Readonly<{
      kind: 'make'
      artwork: ArtworkFile
      plan: PlanFile
      folder: string
      /** Of its ticket, in the order of printing: each film bears the short name of its own. */
      layers: readonly Pick<InkedLayer, 'shortName' | 'ink'>[]
    }>

/** What was seen of artwork; all of it is JSON. */
export type Seen = Readonly<{
  proportion: number
  widthMm: number | null
  warnings: readonly string[]
  picture: KeptSamples
  /** Inks that it names, and what their solids look like. */
  ownInks?: readonly Readonly<{ name: string; lab: Lab }>[]
  statesCmyk?: boolean
  isPicture?: boolean
  /** What passes through in its samples. */
  passing?: Passing
}>

export type Made = Readonly<{ plan: PlanFile; widthMm: number; heightMm: number }>

export type ArtworkResult =
  | Readonly<{ kind: 'look'; seen: Seen }>
  | Readonly<{
      kind: 'make'
      made: Made
      films: readonly Readonly<{
        ink: string
        coverageShare: number
        pdfPath: string
        tiffPath: string
      }>[]
      proofPath: string
    }>
