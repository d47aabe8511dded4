import { DOT_ORDERS, FILLED_SHARES } from '../../core/halftone/dotShapes.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { SCATTER_PX } from '../../kernels/filmRows.ts'
import type { DotPattern } from '../../kernels/patternRows.ts'
import type { Drawing } from './screen.ts'

type Dots = Extract<Halftone, { kind: 'dot' }>

/** A whole cell in a phase, which is counted from the cell's middle. */
const CELL = 2 ** 32

/**
 * Dots at any ruling and angle, of tones as the shape's orders: each pixel is black where ink comes to
 * the place in the cell where its middle lies before the tone is reached.
 *
 * Where pixels and cells keep step, as at 0 and 45°, the same few places are met in every cell and
 * tones would jump. There each pixel is read at some place within itself, scattered evenly, which
 * keeps every tone and roughens edges by half a pixel.
 */
export function dotPattern(halftone: Dots, { pixelUm }: Readonly<{ pixelUm: number }>): DotPattern {
  const { shape } = halftone
  const lattice = latticeOf(halftone, pixelUm)
  const { along, across, alongStep: du, acrossStep: dv } = lattice
  const patch = isEven(halftone, lattice) ? null : scatter(lattice)
  const middle = patch === null ? 0.5 : 0
  const uOf = (y: number): number => along(middle, y + middle)
  const vOf = (y: number): number => across(middle, y + middle)
  return { kind: 'dots', shape, du, dv, uOf, vOf, patch }
}

/** Dots, row by row. */
export function dotDrawing({ shape, du, dv, uOf, vOf, patch }: DotPattern): Drawing {
  return (rows, widthPx) => {
    const bits = rows.bits(widthPx)
    const moved = patch === null ? null : rows.places(SCATTER_PX)
    if (bits === null || (patch !== null && moved === null)) return null
    const row = { shape, u: 0, v: 0, du, dv, scatter: moved }
    return (y, tones) => {
      if (patch !== null) moved?.set(patch[y % patch.length])
      row.u = uOf(y)
      row.v = vOf(y)
      rows.dots(tones, row, bits)
      return bits
    }
  }
}

/** Phases at a point of the film in pixels, and from one pixel to the next; they wrap. */
type Lattice = Readonly<{
  along: (x: number, y: number) => number
  across: (x: number, y: number) => number
  /** How far a way on the film leads, from no place. */
  alongBy: (x: number, y: number) => number
  acrossBy: (x: number, y: number) => number
  alongStep: number
  acrossStep: number
  cellPx: number
}>

function latticeOf({ rulingPerCm, angleDeg }: Dots, pixelUm: number): Lattice {
  const perPx = (rulingPerCm * pixelUm) / 10_000
  const turn = (angleDeg * Math.PI) / 180
  const [cos, sin] = [perPx * Math.cos(turn), perPx * Math.sin(turn)]
  return {
    // y runs down the film, and angles count counter-clockwise
    along: (x, y) => phase(x * cos - y * sin - 0.5),
    across: (x, y) => phase(-x * sin - y * cos - 0.5),
    alongBy: (x, y) => phase(x * cos - y * sin),
    acrossBy: (x, y) => phase(-x * sin - y * cos),
    alongStep: phase(cos),
    acrossStep: phase(-sin),
    cellPx: 1 / perPx,
  }
}

function phase(cells: number): number {
  return Math.floor((cells - Math.floor(cells)) * CELL) | 0
}

/** Sides of the scatter: they have no divisor in common with the side of a usual cell. */
const WIDE = 61
const HIGH = 67

/**
 * How far each pixel of a patch is read from its corner, in phases, a row of SCATTER_PX for each of
 * HIGH rows: points that fill a square evenly however many are taken, steps of 1/g and 1/g² with
 * g³ = g + 1.
 *
 * @source roberts-r2
 */
function scatter({ alongBy, acrossBy }: Lattice): readonly Int16Array[] {
  const g = 1.324_717_957_244_746
  return Array.from({ length: HIGH }, (_, y) => {
    const row = new Int16Array(2 * SCATTER_PX)
    for (let pixel = 0; pixel < SCATTER_PX; pixel++) {
      const part = y * WIDE + (pixel % WIDE)
      const [right, down] = [(0.5 + (part + 1) / g) % 1, (0.5 + (part + 1) / g ** 2) % 1]
      row[2 * pixel] = alongBy(right, down) >> 16
      row[2 * pixel + 1] = acrossBy(right, down) >> 16
    }
    return row
  })
}

/** Cells of the patch on which evenness is judged, and how far a tone's area may be off. */
const JUDGED_CELLS = 10
const MOST_OFF_SHARE = 1 / 1000

/** Whether the pixels of ten by ten cells meet all thresholds alike. */
function isEven({ shape }: Dots, { along, across, cellPx }: Lattice): boolean {
  const side = Math.ceil(JUDGED_CELLS * cellPx)
  const [orderOf, filled] = [DOT_ORDERS[shape], FILLED_SHARES[shape]]
  const counts = new Uint32Array(256)
  for (let down = 0.5; down < side; down++) {
    for (let right = 0.5; right < side; right++) {
      const place = { x: (2 * along(right, down)) / CELL, y: (2 * across(right, down)) / CELL }
      counts[Math.min(255, Math.floor(filled(orderOf(place)) * 256))] += 1
    }
  }
  let met = 0
  return counts.every((count, at) => {
    met += count
    return Math.abs(met / side ** 2 - (at + 1) / 256) <= MOST_OFF_SHARE
  })
}
