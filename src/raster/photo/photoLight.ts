/** Linear light of a photo, 0..1, row by row; 1 where it is at its end. */
export type PhotoLight = Readonly<{
  widthPx: number
  heightPx: number
  values: Float32Array
}>

/** A plane laid true to size: mm from its top left, pixels square. */
export type Sheet = Readonly<{
  widthPx: number
  heightPx: number
  pixelMm: number
  values: Float32Array
}>
