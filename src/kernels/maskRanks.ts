import type { RankPlan } from '../core/halftone/blueNoise.ts'
import { kernelOf } from './kernel.ts'
import { maskRanksCode } from './maskRanksCode.ts'

/**
 * By machine code: the order in which core/halftone/blueNoise.ts turns a mask's pixels black. Its mask
 * is 128 by 128, and a pixel that is on weighs 15 by 15 about itself.
 */
export function maskRanks({ seed, gaussian, firstCount, pixels }: RankPlan): Int32Array {
  const { memory, call, named } = kernelOf(maskRanksCode)
  call('makeRoom')
  new Float64Array(memory.buffer, call('gaussianAt'), gaussian.length).set(gaussian)
  call('scatter', seed, firstCount)
  // called again and again, machine code is made quicker while it runs
  const [move, next] = [named('move'), named('next')]
  while (move() !== 0);
  const ranks = new Int32Array(pixels)
  for (let rank = firstCount - 1; rank >= 0; rank--) ranks[next(1)] = rank
  for (let rank = firstCount; rank < pixels; rank++) ranks[next(0)] = rank
  return ranks
}
