import type { Weave } from '../fabric/grades.ts'

/** What a film wants of a screen. */
export type FilmAsked = Readonly<{
  /** Its marks in equal shares: how wide each is, narrowest first; null: not known. */
  widthsUm: readonly number[] | null
  /** Of the film's sheet; null: not known. */
  sizeMm: Readonly<{ widthMm: number; heightMm: number }> | null
  /** Of its halftone, lines per cm; null: it has none, or nobody said. */
  rulingPerCm: number | null
  /** How the ink should lie; null: no matter. */
  ink: 'thin' | 'thick' | null
}>

/** A screen of the shop as it stands. */
export type ScreenAsked = Readonly<{
  id: string
  weave: Weave
  insideMm: Readonly<{ widthMm: number; heightMm: number }>
  state: 'clean' | 'coated' | 'exposed' | 'in print' | 'to reclaim' | 'torn' | 'lost'
  /** Somebody else's, until then or without a day; null: nobody's, or whoever asks. */
  keptForOther: Readonly<{ untilMs: number | null }> | null
  /** Another layer that is not printed yet was given it. */
  taken: boolean
  coating: Coat | null
}>

export type Coat = Readonly<{
  coatedAtMs: number
  /** As somebody said; null: nobody did. */
  dryAtMs: number | null
  goodUntilMs: number | null
  /** Of the bucket it came from. */
  bucketExpiresAtMs: number | null
  /** Emulsion over mesh, measured. */
  overMeshUm: number | null
}>
