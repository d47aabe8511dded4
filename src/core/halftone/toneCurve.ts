/** What a film's tone prints as: pairs of shares, film then print, 0 … 1, each larger than the one before. */
export type PrintedTones = readonly (readonly [film: number, print: number])[]

/**
 * A usual print, where nobody measured: dots grow most in the middle tones, by 15 in 100. Common
 * practice, no source; a shop's own prints differ, and measured ones come first.
 */
export const USUAL_PRINTED_TONES: PrintedTones = [
  [0.25, 0.36],
  [0.5, 0.65],
  [0.75, 0.86],
]

/** Whether pairs are a curve: within 0 … 1 and rising in both. */
export function isToneCurve(pairs: PrintedTones): boolean {
  return withEnds(pairs).every(
    ([film, print], at, all) =>
      at === 0 || (film > (all[at - 1]?.[0] ?? 1) && print > (all[at - 1]?.[1] ?? 1)),
  )
}

export type ToneCurve = Readonly<{
  /** The film's tone that prints as this one. */
  filmShare: (print: number) => number
  /** What this tone of a film prints as. */
  printedShare: (film: number) => number
}>

/**
 * A curve through measured tones that never turns back: cubic pieces with the slopes of Fritsch and
 * Butland. Nothing prints as nothing, solid as solid.
 *
 * @throws RangeError where the pairs do not rise
 * @source fritsch-butland
 */
export function toneCurve(pairs: PrintedTones): ToneCurve {
  if (!isToneCurve(pairs)) throw new RangeError('pairs: expected shares that rise, film and print')
  const nodes = withEnds(pairs).map(([film, print]) => [print, film] as const)
  const slopes = slopesOf(nodes)
  const filmShare = (print: number): number => heightAt(print, nodes, slopes)
  return { filmShare, printedShare: (film) => inverse(filmShare, film) }
}

function withEnds(pairs: PrintedTones): PrintedTones {
  const inner = pairs.filter(
    ([film, print]) => !(film === 0 && print === 0) && !(film === 1 && print === 1),
  )
  return [[0, 0], ...inner, [1, 1]]
}

type Nodes = readonly (readonly [x: number, y: number])[]

function slopesOf(nodes: Nodes): readonly number[] {
  const steps = nodes.slice(1).map(([x, y], at) => {
    const [beforeX, beforeY] = nodes[at] ?? [0, 0]
    return { wide: x - beforeX, slope: (y - beforeY) / (x - beforeX) }
  })
  return nodes.map((_, at) => {
    const [before, after] = [steps[at - 1], steps[at]]
    if (before === undefined || after === undefined) return (before ?? after)?.slope ?? 0
    const all = 3 * (before.wide + after.wide)
    const first = (2 * after.wide + before.wide) / all
    return 1 / (first / before.slope + (1 - first) / after.slope)
  })
}

function heightAt(x: number, nodes: Nodes, slopes: readonly number[]): number {
  let at = 0
  while (at < nodes.length - 2 && x > (nodes[at + 1]?.[0] ?? 1)) at += 1
  const [[left, low], [right, high]] = [nodes[at] ?? [0, 0], nodes[at + 1] ?? [1, 1]]
  const wide = right - left
  const t = Math.min(1, Math.max(0, (x - left) / wide))
  const [from, to] = [(slopes[at] ?? 0) * wide, (slopes[at + 1] ?? 0) * wide]
  const s = 1 - t
  return low * s * s * (1 + 2 * t) + high * t * t * (3 - 2 * t) + from * t * s * s - to * t * t * s
}

const HALVINGS = 40

function inverse(rising: (x: number) => number, y: number): number {
  let [low, high] = [0, 1]
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2
    if (rising(middle) < y) low = middle
    else high = middle
  }
  return (low + high) / 2
}
