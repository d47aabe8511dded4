import { randomFrom } from './draws.testing.ts'

/** One Gaussian number that the data are about: its prior. */
export type Unknown = Readonly<{ mean: number; sd: number }>

/** Moments of what is watched, by a sampler. */
export type Sampled = Readonly<{ mean: readonly number[]; sd: readonly number[] }>

/**
 * Moments of Gaussian priors × any likelihood by elliptical slice sampling (I. Murray, R. P. Adams,
 * D. J. C. MacKay, 2010; from memory): each step turns on an ellipse through the present point and
 * a fresh draw of the prior, and shrinks the turn until the likelihood stays above a level.
 */
export function sampledPosterior(
  unknowns: readonly Unknown[],
  logLikelihood: (x: Float64Array) => number,
  {
    steps,
    seed,
    watch,
  }: Readonly<{ steps: number; seed: number; watch: (x: Float64Array) => readonly number[] }>,
): Sampled {
  const { uniform, normal } = randomFrom(seed)
  const size = unknowns.length
  const place = (u: Float64Array): Float64Array =>
    u.map((value, i) => unknowns[i].mean + unknowns[i].sd * value)
  let here = new Float64Array(size)
  let height = logLikelihood(place(here))
  const first = watch(place(here))
  const sum = first.map(() => 0)
  const square = first.map(() => 0)
  const burnIn = Math.floor(steps / 10)
  for (let step = -burnIn; step < steps; step++) {
    const fresh = here.map(() => normal())
    const level = height + Math.log(1 - uniform())
    let angle = 2 * Math.PI * uniform()
    let [low, high] = [angle - 2 * Math.PI, angle]
    for (;;) {
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
      const there = here.map((value, i) => value * cos + fresh[i] * sin)
      const thereHeight = logLikelihood(place(there))
      if (thereHeight > level) {
        here = there
        height = thereHeight
        break
      }
      if (angle < 0) low = angle
      else high = angle
      angle = low + (high - low) * uniform()
    }
    if (step < 0) continue
    watch(place(here)).forEach((value, i) => {
      sum[i] += value - first[i]
      square[i] += (value - first[i]) ** 2
    })
  }
  return {
    mean: sum.map((total, i) => first[i] + total / steps),
    sd: sum.map((total, i) => Math.sqrt(square[i] / steps - (total / steps) ** 2)),
  }
}
