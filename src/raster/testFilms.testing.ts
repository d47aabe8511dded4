import type { Film } from './film.ts'

/** Seeded numbers, 0 … 1. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

/** A film of densities in memory, handed out in bands of uneven height. */
export function filmOf(
  densities: Float32Array,
  {
    widthPx,
    pixelUm,
    bandRows = 37,
  }: Readonly<{ widthPx: number; pixelUm: number; bandRows?: number }>,
): Film {
  const heightPx = densities.length / widthPx
  return {
    widthPx,
    heightPx,
    pixelUm,
    transmissionOf: null,
    async *bands() {
      for (let top = 0; top < heightPx; top += bandRows) {
        const rows = Math.min(bandRows, heightPx - top)
        yield { top, rows, samples: densities.subarray(top * widthPx, (top + rows) * widthPx) }
      }
    },
  }
}

/** A straight bar with square ends, in pixels; a pixel belongs when its middle does. */
export type Bar = Readonly<{
  x: number
  y: number
  turn: number
  length: number
  width: number
  density: number
}>

export function drawBar(
  densities: Float32Array,
  widthPx: number,
  { x, y, turn, length, width, density }: Bar,
): void {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  for (let at = 0; at < densities.length; at += 1) {
    const [dx, dy] = [(at % widthPx) + 0.5 - x, Math.floor(at / widthPx) + 0.5 - y]
    const inside =
      Math.abs(dx * cos + dy * sin) < length / 2 && Math.abs(dy * cos - dx * sin) < width / 2
    if (inside) densities[at] = density
  }
}
