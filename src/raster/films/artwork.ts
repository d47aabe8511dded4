/** Artwork as rows of samples, from top to bottom, upright and laid on white. */
export type Artwork = Readonly<{
  /** One sample of grey, three of sRGB, or four shares of cyan, magenta, yellow and black ink. */
  space: 'grey' | 'rgb' | 'cmyk'
  widthPx: number
  heightPx: number
  bands: () => AsyncIterable<ArtworkBand>
  /** Inks that the artwork holds by name: grey pictures of them, white where there is none. */
  passing?: readonly Readonly<{ plate: number; grey: Artwork }>[]
}>

/** Whole rows, 0 … 255; they hold until the next band is asked for. */
export type ArtworkBand = Readonly<{ rows: number; samples: Uint8Array }>

export const SAMPLES: Readonly<Record<Artwork['space'], 1 | 3 | 4>> = { grey: 1, rgb: 3, cmyk: 4 }
