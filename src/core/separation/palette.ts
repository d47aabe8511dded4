import { oklabFromXyz65 } from '../colour/oklab.ts'
import type { Srgb, Triple } from '../colour/space.ts'
import { xyz65FromSrgb } from '../colour/srgb.ts'

/** A colour that a picture is made of, and how much of the picture it stands for. */
export type PictureColour = Readonly<{ srgb: Srgb; share: number }>

/** Colours are counted in cells of 32 a side. */
const CELL_SHIFT = 3
const CELLS = 32
const ROUNDS = 24

/**
 * The colours that a picture can be drawn in: its colours gathered about `count` of them by nearness in
 * OKLab, most of the picture first. Each is the mean of what it stands for. No chance is in it.
 *
 * @param rgb stored sRGB samples, 0 … 255, three a pixel
 * @param count 1 … 64; fewer come back where the picture has fewer
 * @source oklab, lloyd1982
 */
export function paletteOf(
  rgb: Uint8Array,
  { count }: Readonly<{ count: number }>,
): readonly PictureColour[] {
  const cells = cellsOf(rgb)
  const total = cells.reduce((sum, { weight }) => sum + weight, 0)
  let middles = seeds(cells, count)
  let groups = gathered(cells, middles)
  for (let round = 0; round < ROUNDS; round++) {
    const next = groups.map((group, at): Triple => middleOf(group) ?? middles[at] ?? [0, 0, 0])
    const moved = next.some((middle, at) => squared(middle, middles[at] ?? middle) > 1e-10)
    middles = next
    groups = gathered(cells, middles)
    if (!moved) break
  }
  return groups
    .filter((group) => group.length > 0)
    .map((group) => {
      const weight = group.reduce((sum, cell) => sum + cell.weight, 0)
      const mean = (part: 0 | 1 | 2): number =>
        group.reduce((sum, cell) => sum + cell.weight * cell.srgb[part], 0) / weight
      return { srgb: [mean(0), mean(1), mean(2)] as const, share: weight / total }
    })
    .toSorted((one, other) => other.share - one.share)
}

type Cell = Readonly<{ srgb: Srgb; oklab: Triple; weight: number }>

function cellsOf(rgb: Uint8Array): readonly Cell[] {
  const sums = new Float64Array(4 * CELLS ** 3)
  for (let at = 0; at < rgb.length; at += 3) {
    const [r, g, b] = [rgb[at] ?? 0, rgb[at + 1] ?? 0, rgb[at + 2] ?? 0]
    const cell = ((r >> CELL_SHIFT) * CELLS + (g >> CELL_SHIFT)) * CELLS + (b >> CELL_SHIFT)
    sums[4 * cell] = (sums[4 * cell] ?? 0) + r
    sums[4 * cell + 1] = (sums[4 * cell + 1] ?? 0) + g
    sums[4 * cell + 2] = (sums[4 * cell + 2] ?? 0) + b
    sums[4 * cell + 3] = (sums[4 * cell + 3] ?? 0) + 1
  }
  const cells: Cell[] = []
  for (let at = 0; at < sums.length; at += 4) {
    const weight = sums[at + 3] ?? 0
    if (weight === 0) continue
    const part = (of: number): number => (sums[at + of] ?? 0) / weight / 255
    const srgb = [part(0), part(1), part(2)] as const
    cells.push({ srgb, oklab: oklabFromXyz65(xyz65FromSrgb(srgb)), weight })
  }
  return cells
}

/** The heaviest colour, then each time the one that weighs most by how far it is from all so far. */
function seeds(cells: readonly Cell[], count: number): readonly Triple[] {
  const far = cells.map(() => Number.POSITIVE_INFINITY)
  const found: Triple[] = []
  while (found.length < Math.min(count, cells.length)) {
    const worth = cells.map(({ weight }, at) =>
      found.length === 0 ? weight : Math.sqrt(weight) * (far[at] ?? 0),
    )
    const most = Math.max(...worth)
    if (most <= 0) break
    const seed = cells[worth.indexOf(most)]?.oklab ?? [0, 0, 0]
    found.push(seed)
    cells.forEach(({ oklab }, at) => {
      far[at] = Math.min(far[at] ?? 0, squared(oklab, seed))
    })
  }
  return found
}

function gathered(
  cells: readonly Cell[],
  middles: readonly Triple[],
): readonly (readonly Cell[])[] {
  const groups: Cell[][] = middles.map(() => [])
  for (const cell of cells) {
    let [nearest, least] = [0, Number.POSITIVE_INFINITY]
    middles.forEach((middle, at) => {
      const far = squared(cell.oklab, middle)
      if (far < least) [nearest, least] = [at, far]
    })
    groups[nearest]?.push(cell)
  }
  return groups
}

function middleOf(group: readonly Cell[]): Triple | null {
  if (group.length === 0) return null
  const weight = group.reduce((sum, cell) => sum + cell.weight, 0)
  const mean = (part: 0 | 1 | 2): number =>
    group.reduce((sum, cell) => sum + cell.weight * cell.oklab[part], 0) / weight
  return [mean(0), mean(1), mean(2)]
}

function squared(one: Triple, other: Triple): number {
  return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2 + (one[2] - other[2]) ** 2
}
