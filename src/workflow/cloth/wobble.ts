/** A small, even unsteadiness of a hand, the same every time it is drawn. */
export type Hand = Readonly<{
  /** Another number from 0 to 1. */
  next: () => number
  /** A slow wave of about one pixel, to be followed along a line. */
  wave: (amplitudePx: number) => (alongPx: number) => number
}>

/** The hand of one seed (mulberry32, a well-known small generator; from memory). */
export function hand(seed: number): Hand {
  let state = (seed * 2_654_435_761) >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
  const wave = (amplitudePx: number): ((alongPx: number) => number) => {
    const [first, second, slow, fast] = [next() * 7, next() * 7, 60 + 40 * next(), 23 + 14 * next()]
    return (alongPx) =>
      amplitudePx *
      (0.7 * Math.sin(alongPx / slow + first) + 0.3 * Math.sin(alongPx / fast + second))
  }
  return { next, wave }
}
