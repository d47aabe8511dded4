/** A seeded source of random numbers. */
export type Random = Readonly<{
  /** Even over 0 … 1, 1 left out. */
  uniform: () => number
  /** Standard normal. */
  normal: () => number
  /** One of several, each alike. */
  one: <T>(of: readonly T[]) => T
}>

/** Marsaglia's xorshift over 32 bits, thinned by a multiplier; Box and Muller's normal draws. */
export function randomFrom(seed: number): Random {
  let state = (seed * 2654435761) >>> 0 || 1
  const uniform = (): number => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    state >>>= 0
    return (Math.imul(state, 0x9e3779b1) >>> 0) / 2 ** 32
  }
  for (let at = 0; at < 20; at++) uniform()
  const normal = (): number =>
    Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
  return { uniform, normal, one: (of) => of[Math.floor(uniform() * of.length)] }
}
