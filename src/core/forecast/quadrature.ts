/** Nodes and weights of a rule on −1 … 1. */
export type Rule = Readonly<{ nodes: readonly number[]; weights: readonly number[] }>

/**
 * Gauss-Legendre rule: exact for polynomials to degree 2 n − 1.
 *
 * Newton's method on P_n from the Chebyshev guess; weight = 2 / ((1 − x²) P'_n(x)²).
 *
 * @param count n, 1 … 200 nodes
 * @source nist-dlmf (3.5(v))
 */
export function gaussLegendre(count: number): Rule {
  const nodes: number[] = []
  const weights: number[] = []
  for (let at = 0; at < count; at += 1) {
    let x = Math.cos((Math.PI * (at + 0.75)) / (count + 0.5))
    let slope = 1
    for (let round = 0; round < 50; round += 1) {
      let last = 1
      let value = x
      for (let degree = 2; degree <= count; degree += 1) {
        const next = ((2 * degree - 1) * x * value - (degree - 1) * last) / degree
        last = value
        value = next
      }
      slope = count === 1 ? 1 : (count * (x * value - last)) / (x * x - 1)
      const step = (count === 1 ? x : value) / slope
      x -= step
      if (Math.abs(step) < 1e-16) break
    }
    nodes.push(x)
    weights.push(2 / ((1 - x * x) * slope * slope))
  }
  return { nodes, weights }
}

/** Integral of f over low … high by the rule. */
export function integrate(
  f: (at: number) => number,
  [low, high]: readonly [number, number],
  { nodes, weights }: Rule,
): number {
  const middle = (low + high) / 2
  const half = (high - low) / 2
  let sum = 0
  for (let at = 0; at < nodes.length; at += 1) {
    sum += (weights[at] ?? 0) * f(middle + half * (nodes[at] ?? 0))
  }
  return half * sum
}
