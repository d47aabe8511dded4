import { expectIn } from '../units/range.ts'

/** A blade and how to hold it. */
export type Squeegee = Readonly<{
  /** Of the blade, along the screen's other side. */
  widthMm: number
  hardnessShore: Readonly<{ low: number; high: number }>
  angleDeg: number
  /** By how much the blade is too wide for the frame; 0: it fits. */
  shortMm: number
}>

/** The blade reaches beyond the image on each side. */
const BEYOND_IMAGE_MM = 25
/** The fabric must give between blade and frame. */
const FROM_FRAME_MM = 40
/** From here a fabric is for fine work. */
const FINE_PER_CM = 90

/**
 * The blade for an image: 25 mm wider on each side and 40 mm clear of the frame; hard for fine
 * fabrics and details, softer where a solid wants more ink.
 *
 * @source squeegee-practice
 */
export function squeegeeFor({
  imageWidthMm,
  insideWidthMm,
  threadsPerCm,
}: Readonly<{ imageWidthMm: number; insideWidthMm: number; threadsPerCm: number }>): Squeegee {
  expectIn(imageWidthMm, { name: 'imageWidthMm', low: 1, high: 10_000, unit: 'mm' })
  const widthMm = 10 * Math.ceil((imageWidthMm + 2 * BEYOND_IMAGE_MM) / 10)
  return {
    widthMm,
    hardnessShore: threadsPerCm >= FINE_PER_CM ? { low: 70, high: 80 } : { low: 65, high: 70 },
    angleDeg: 75,
    shortMm: Math.max(0, widthMm + 2 * FROM_FRAME_MM - insideWidthMm),
  }
}
