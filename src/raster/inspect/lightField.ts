/**
 * Light of the backlit screen over the film, in the photo's linear light. Ground is seen nearly
 * everywhere and is a polynomial of its own. How much more comes through where it is open is seen
 * only at the marks: it follows the ground, times a slope and a bowl that are held small.
 */
export type LightField = Readonly<{
  degree: 2 | 3
  ground: Float64Array
  /** 1 where open places follow the ground's light, 0 where the ground is too dark to follow. */
  follows: 0 | 1
  /** Factor and its changes with u, v and uu + vv. */
  gain: Float64Array
}>

export const GAIN_TERMS = 4

export function termCount(degree: 2 | 3): number {
  return degree === 2 ? 6 : 10
}

/** Writes the terms 1, u, v, uu, uv, vv and, for degree 3, uuu, uuv, uvv, vvv. */
export function lightTerms(degree: 2 | 3, u: number, v: number, out: Float64Array): void {
  out[0] = 1
  out[1] = u
  out[2] = v
  out[3] = u * u
  out[4] = u * v
  out[5] = v * v
  if (degree === 2) return
  out[6] = u * u * u
  out[7] = u * u * v
  out[8] = u * v * v
  out[9] = v * v * v
}

/** What the light between ground and open is at a place, once its ground is known. */
export function gainAt(light: LightField, ground: number, u: number, v: number): number {
  const { gain, follows } = light
  const even = gain[0] + gain[1] * u + gain[2] * v + gain[3] * (u * u + v * v)
  // beyond the outermost marks the slope is a guess: never below a third of the middle
  return (follows === 1 ? ground : 1) * Math.max(even, gain[0] / 3)
}
