import { mixed } from './noise.ts'

/** Numbers that look random and are the same again for the same seed. */
export type Random = Readonly<{
  /** 0 … below 1. */
  share: () => number
  between: (low: number, high: number) => number
  /** About `middle`, nearly always within ± 2 `spread`: the mean of three even draws. */
  around: (middle: number, spread: number) => number
  /** A whole number that seeds something of its own. */
  seed: () => number
}>

/** A stream of its own for each seed, which no other stream disturbs. */
export function randomFrom(seed: number): Random {
  let drawn = 0
  const word = (): number => {
    drawn += 1
    return mixed(drawn, seed)
  }
  const share = (): number => word() / 0x1_0000_0000
  return {
    share,
    between: (low, high) => low + (high - low) * share(),
    around: (middle, spread) => middle + spread * 2 * (share() + share() + share() - 1.5),
    seed: word,
  }
}
