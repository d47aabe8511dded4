import { leakOfCode } from '../leakCode.ts'

/**
 * Light in 16 bits, as a leak is kept: a photo of tens of millions of pixels takes half the memory,
 * each light is right to one part in 8000, and 1 stays 1. Darker than 2^−15.5 nothing is told.
 */
export type LightCodes = Uint16Array

/** What is told to be no lighter than this is dark. */
export const LEAST_LIGHT = 3e-5

let table: Float32Array | null = null

/** Reads a light by its place, whichever way it is kept. */
export function lightReader(values: Float32Array | LightCodes): (at: number) => number {
  if (values instanceof Float32Array) return (at) => values[at]
  table ??= Float32Array.from({ length: 65_536 }, (_, code) => leakOfCode(code))
  const lights = table
  return (at) => lights[values[at]]
}
