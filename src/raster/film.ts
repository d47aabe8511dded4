/**
 * A film as rows that stream past: the one form in which film pixels reach the loops.
 *
 * Either coded (8 or 16 bit samples with a table from sample to transmission) or as densities
 * (32 bit floats). Transmission is above the film base, 0 … about 1.26 (density −0.1).
 */
export type Film = Readonly<{
  widthPx: number
  heightPx: number
  /** Side of the square pixels. */
  pixelUm: number
  /** Transmission of each sample value where samples are coded; null where they are densities. */
  transmissionOf: Float32Array | null
  /** Whole rows from top to bottom, each once; may be called again for another pass. */
  bands: () => AsyncIterable<FilmBand>
}>

/** Rows top … top + rows − 1, row by row; valid until the next band is asked for. */
export type FilmBand = Readonly<{
  top: number
  rows: number
  samples: Uint8Array | Uint16Array | Float32Array
}>
