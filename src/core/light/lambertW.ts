/** At and below it there is nothing: w·exp(w) is never less. */
const LEAST = -1 / Math.E

/**
 * Lambert's W, upper branch: the w of −1 or more for which w·exp(w) = x.
 *
 * @param x −1/e or more; a last bit below −1/e, as rounding leaves it, counts as −1/e
 * @returns −1 or more
 * @throws RangeError below −1/e, and for what is no number
 * @source lambert-w (Halley's steps, from the series about −1/e or from a logarithm)
 */
export function lambertW0(x: number): number {
  if (!(x >= LEAST - 1e-15)) throw new RangeError(`x: expected −1/e or more, got ${x}`)
  if (x === 0) return 0
  let w = nearW0(x)
  for (let round = 0; round < 40; round += 1) {
    const grown = Math.exp(w)
    const off = w * grown - x
    const step = off / (grown * (w + 1) - ((w + 2) * off) / (2 * w + 2))
    if (!Number.isFinite(step) || Math.abs(step) <= 1e-16 * Math.abs(w)) return w
    w -= step
  }
  return w
}

function nearW0(x: number): number {
  if (x > Math.E) {
    const log = Math.log(x)
    return log - Math.log(log)
  }
  if (x > -0.25) return Math.log1p(x) // too large beyond 0, still near enough to step from
  const p = Math.sqrt(Math.max(0, 2 * (Math.E * x + 1)))
  return -1 + p * (1 + p * (-1 / 3 + (p * 11) / 72))
}
