import type { LentSheet, PhotoPlanes } from '../../kernels/photoPlanes.ts'
import type { LightCodes } from './lightCode.ts'

/** Linear light, 0..1, row by row; 1 where it is at its end. */
export type LightPlane = Readonly<{
  widthPx: number
  heightPx: number
  values: Float32Array
}>

/** Linear light of a photo; a whole photo's in codes. */
export type PhotoLight = Readonly<{
  widthPx: number
  heightPx: number
  values: Float32Array | LightCodes
  /** Its colour, coarsely; left out where nobody has looked. */
  colours?: Colours
  /** The same values as machine code sees them; left out where they are in no kernel. */
  planes?: PhotoPlanes
}>

/** The colour of square cells of a photo, row by row. */
export type Colours = Readonly<{
  cellPx: number
  across: number
  down: number
  /** log10 of red over green and of blue over green, two a cell; NaN in the dark and at light's end. */
  hues: Float32Array
}>

/** A plane laid true to size: mm from its top left, pixels square. */
export type Sheet = Readonly<{
  widthPx: number
  heightPx: number
  pixelMm: number
  values: Float32Array
  /** Where machine code holds the values. */
  lent?: LentSheet
}>
