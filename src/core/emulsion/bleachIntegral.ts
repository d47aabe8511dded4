/**
 * What absorbs in a bleaching coat: A while sensitiser is left, B always; per um.
 */
export type BleachOptics = Readonly<{ aPerUm: number; bPerUm: number }>

/** Above it exp(−u) is below the last bit of 1 and the integral has a closed form. */
const BLEACHED = 40

/** Abscissas and weights of the ten-point Gauss-Legendre rule on −1 … 1, positive half. */
const GAUSS_10: readonly (readonly [number, number])[] = [
  [0.1488743389816312, 0.2955242247147529],
  [0.4333953941292472, 0.2692667193099963],
  [0.6794095682990244, 0.219086362515982],
  [0.8650633666889845, 0.1494513491505806],
  [0.9739065285171717, 0.0666713443086881],
]

/** In ln u, a panel so short that ten points are good to the last bits. */
const PANEL = 1

/**
 * The depth over which a reduced dose u falls from `above` to `below`:
 * z = ∫ du / (A (1 − exp(−u)) + B u), u from below to above.
 *
 * u = C · (dose at that depth): 1 − exp(−u) of the sensitiser is used up there. Written over
 * s = ln u the integrand is 1 / (A (1 − exp(−u))/u + B), smooth and between 1/(A + B) and 1/B.
 *
 * @param optics A above 0, B at least 0
 * @param u below above 0, above at least below
 * @returns um
 * @source dill1975
 */
export function bleachDepth(
  { aPerUm: a, bPerUm: b }: BleachOptics,
  { below, above }: Readonly<{ below: number; above: number }>,
): number {
  const from = Math.log(below)
  const to = Math.log(Math.min(above, BLEACHED))
  let depth = 0
  if (to > from) {
    const panels = Math.ceil((to - from) / PANEL)
    const half = (to - from) / panels / 2
    for (let panel = 0; panel < panels; panel++) {
      const middle = from + half * (2 * panel + 1)
      for (const [abscissa, weight] of GAUSS_10) {
        depth += half * weight * slope(a, b, Math.exp(middle - half * abscissa))
        depth += half * weight * slope(a, b, Math.exp(middle + half * abscissa))
      }
    }
  }
  const start = Math.max(below, BLEACHED)
  if (above <= start) return depth
  const rise = above - start
  return depth + (b === 0 ? rise / a : Math.log1p((b * rise) / (a + b * start)) / b)
}

/**
 * The reduced dose at the surface that leaves `below` at a depth: bleachDepth, backwards.
 *
 * Newton in ln u inside a bracket that only shrinks, bisecting when a step would leave it; beyond
 * u = 40 in closed form.
 *
 * @param depth at least 0 um
 * @source dill1975
 */
export function bleachSurfaceDose(
  optics: BleachOptics,
  { below, depth }: Readonly<{ below: number; depth: number }>,
): number {
  const { aPerUm: a, bPerUm: b } = optics
  const known = below >= BLEACHED ? 0 : bleachDepth(optics, { below, above: BLEACHED })
  if (depth >= known) {
    const start = Math.max(below, BLEACHED)
    const rest = depth - known
    return start + (b === 0 ? a * rest : ((a + b * start) * Math.expm1(b * rest)) / b)
  }
  let low = Math.log(below)
  // The dose can rise no faster than through unbleached coat.
  let high = Math.min(Math.log(BLEACHED), low + depth * (a + b))
  let at = high
  for (let round = 0; round < 200; round++) {
    const above = Math.exp(at)
    const short = depth - bleachDepth(optics, { below, above })
    if (short > 0) low = at
    else high = at
    const newton = at + short / slope(a, b, above)
    const next = newton > low && newton < high ? newton : (low + high) / 2
    if (Math.abs(next - at) <= 1e-15 * Math.max(1, Math.abs(at)) || next === at) break
    at = next
  }
  return Math.exp(at)
}

/** dz/d(ln u) = u / (A (1 − exp(−u)) + B u). */
function slope(a: number, b: number, u: number): number {
  return u / (-a * Math.expm1(-u) + b * u)
}
