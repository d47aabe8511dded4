/** Opening over pitch of common fabrics: 90-48 has 0.57, 43-80 0.66. */
export const OPENING_PER_PITCH = 0.6

/**
 * How strongly a fabric's threads modulate an even ink film, against the film's mean: the Fourier
 * coefficients of square openings w over pitch p, sinc(k w/p) · sinc(l w/p).
 *
 * @source fourier-gratings
 */
export function fabricStrength(k: number, l: number): number {
  return Math.abs(sinc(k * OPENING_PER_PITCH) * sinc(l * OPENING_PER_PITCH))
}

/**
 * How strongly round dots hold the harmonic (i, j) of their ruling, at the tone where they hold it
 * most: the greatest |r J1(2π r q) / q| with q = √(i² + j²), over radii r up to half a cell, where
 * the dots touch; beyond that the gaps are the dots.
 *
 * @returns amplitude where paper is 0 and solid ink 1
 * @source fourier-gratings
 */
export function dotStrength(i: number, j: number): number {
  const squared = i ** 2 + j ** 2
  return STRONGEST.get(squared) ?? strongest(Math.sqrt(squared))
}

const RADII = 100

function strongest(q: number): number {
  const radii = Array.from({ length: RADII }, (_, at) => (0.5 * (at + 1)) / RADII)
  return Math.max(...radii.map((r) => Math.abs((r * besselJ1(2 * Math.PI * r * q)) / q)))
}

const STEPS = 64

/** J1(x) = (1/π) ∫ cos(τ − x sin τ) dτ from 0 to π, by the trapezium rule, exact for such a period. */
function besselJ1(x: number): number {
  let sum = 0
  for (let step = 0; step < STEPS; step++) {
    const tau = (2 * Math.PI * step) / STEPS
    sum += Math.cos(tau - x * Math.sin(tau))
  }
  return sum / STEPS
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x)
}

/** Reckoned once for the harmonics that are looked for, by i² + j². */
const STRONGEST: ReadonlyMap<number, number> = new Map(
  [1, 2, 4, 5, 8, 9, 10, 16].map((squared) => [squared, strongest(Math.sqrt(squared))]),
)
