import type { ClassShares, LeakLimits } from '../core/forecast/classes.ts'
import { codeOfLeak } from './leakCode.ts'

/** How often each leak code stands on a film: any dose's shares follow from it. */
export type LeakHistogram = Readonly<{ counts: Float64Array; total: number }>

/** Leak limits as codes: a dose is three integer thresholds. */
export type CodeLimits = Readonly<{ skin: number; hold: number; full: number }>

export function codeLimits({ skin, hold, full }: LeakLimits): CodeLimits {
  return { skin: codeOfLeak(skin), hold: codeOfLeak(hold), full: codeOfLeak(full) }
}

/** Adds a band's codes to the counts. */
export function countCodes(counts: Float64Array, codes: Uint16Array): void {
  for (let at = 0; at < codes.length; at += 1) counts[codes[at]] += 1
}

/** Shares of the four states at a dose, from the histogram alone. */
export function sharesAt({ counts, total }: LeakHistogram, limits: LeakLimits): ClassShares {
  const { skin, hold, full } = codeLimits(limits)
  const under = (code: number): number => {
    let sum = 0
    for (let at = 0; at < code; at += 1) sum += counts[at]
    return sum / total
  }
  const open = under(skin)
  const belowHold = Math.max(open, under(hold))
  const belowFull = Math.max(belowHold, under(full))
  return {
    open,
    inDoubt: belowFull - open,
    closed: 1 - belowFull,
    veiled: belowHold - open,
    soft: belowFull - belowHold,
  }
}

/** Grey of each state in a class picture: 0 open, 128 in doubt, 255 closed. */
export function classGrey(
  codes: Uint16Array,
  { skin, full }: CodeLimits,
  target: Uint8Array,
): void {
  for (let at = 0; at < codes.length; at += 1) {
    const code = codes[at]
    target[at] = code < skin ? 0 : code < full ? 128 : 255
  }
}
