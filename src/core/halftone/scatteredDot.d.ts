import type { Halftone } from './halftone.ts'
/**
 * How wide scattered dots are that take over where a halftone's own grow too small: as wide as the
 * dots of its palest tone that holds, or as the islands of its fullest, whichever is more.
 */
export declare function endsDotUm(
  halftone: Halftone,
  {
    least,
    most,
  }: Readonly<{
    least: number
    most: number
  }>,
): number
