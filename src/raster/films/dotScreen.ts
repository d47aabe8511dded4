import { CELL_SIDE, cellThresholds, SOLID } from '../../core/halftone/cellThresholds.ts'
import { DOT_ORDERS } from '../../core/halftone/dotShapes.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import type { Screen } from './screen.ts'

type Dots = Extract<Halftone, { kind: 'dot' }>

/** A whole cell is 2^32; the upper 8 bits of a phase name one of CELL_SIDE places. */
const CELL = 2 ** 32
const PLACE_SHIFT = 24

/**
 * Dots at any ruling and angle: each pixel's threshold is read where its middle lies in its cell.
 *
 * Where pixels and cells keep step, as at 0 and 45°, the same few places are met in every cell and
 * tones would jump. There each pixel is read at some place within itself, scattered evenly, which
 * keeps every tone and roughens edges by half a pixel.
 */
export function dotScreen(halftone: Dots, { pixelUm }: Readonly<{ pixelUm: number }>): Screen {
  const table = cellThresholds(DOT_ORDERS[halftone.shape])
  const lattice = latticeOf(halftone, pixelUm)
  return isEven(table, lattice) ? plainScreen(table, lattice) : scatteredScreen(table, lattice)
}

/** Phases at a point of the film in pixels, and from one pixel to the next; they wrap, unrounded. */
type Lattice = Readonly<{
  along: (x: number, y: number) => number
  across: (x: number, y: number) => number
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
    along: (x, y) => phase(x * cos - y * sin),
    across: (x, y) => phase(-x * sin - y * cos),
    alongStep: phase(cos),
    acrossStep: phase(-sin),
    cellPx: 1 / perPx,
  }
}

function phase(cells: number): number {
  return Math.floor((cells - Math.floor(cells)) * CELL) | 0
}

function plainScreen(
  table: Uint16Array,
  { along, across, alongStep, acrossStep }: Lattice,
): Screen {
  return {
    row: (y, tones, bits) => {
      const width = tones.length
      let u = along(0.5, y + 0.5)
      let v = across(0.5, y + 0.5)
      for (let from = 0, at = 0; from < width; from += 8, at++) {
        const to = Math.min(from + 8, width)
        if (isFlat(tones, from, to)) {
          bits[at] = tones[from] === 0 ? 0 : 0xff << (from + 8 - to)
          u = (u + 8 * alongStep) | 0
          v = (v + 8 * acrossStep) | 0
          continue
        }
        let byte = 0
        for (let x = from; x < to; x++) {
          const place = ((v >>> PLACE_SHIFT) * CELL_SIDE) | (u >>> PLACE_SHIFT)
          byte = (byte << 1) | (table[place] < tones[x] ? 1 : 0)
          u = (u + alongStep) | 0
          v = (v + acrossStep) | 0
        }
        bits[at] = byte << (from + 8 - to)
      }
    },
  }
}

/** Whether pixels are all nothing or all solid: no dot decides about them. */
function isFlat(tones: Uint16Array, from: number, to: number): boolean {
  const tone = tones[from]
  if (tone !== 0 && tone !== SOLID) return false
  for (let x = from + 1; x < to; x++) if (tones[x] !== tone) return false
  return true
}

/** Sides of the scatter: they have no divisor in common with the side of a usual cell. */
const WIDE = 61
const HIGH = 67

function scatteredScreen(table: Uint16Array, lattice: Lattice): Screen {
  const { along, across, alongStep, acrossStep } = lattice
  const [alongBy, acrossBy] = scatter(lattice)
  return {
    row: (y, tones, bits) => {
      const width = tones.length
      const first = (y % HIGH) * WIDE
      let u = along(0, y)
      let v = across(0, y)
      for (let from = 0, at = 0; from < width; from += 8, at++) {
        const to = Math.min(from + 8, width)
        if (isFlat(tones, from, to)) {
          bits[at] = tones[from] === 0 ? 0 : 0xff << (from + 8 - to)
          u = (u + 8 * alongStep) | 0
          v = (v + 8 * acrossStep) | 0
          continue
        }
        let byte = 0
        for (let x = from; x < to; x++) {
          const part = first + (x % WIDE)
          const column = (u + alongBy[part]) >>> PLACE_SHIFT
          const row = (v + acrossBy[part]) >>> PLACE_SHIFT
          byte = (byte << 1) | (table[row * CELL_SIDE + column] < tones[x] ? 1 : 0)
          u = (u + alongStep) | 0
          v = (v + acrossStep) | 0
        }
        bits[at] = byte << (from + 8 - to)
      }
    },
  }
}

/**
 * How far each pixel of a patch is read from its corner, in phases: points that fill a square evenly
 * however many are taken, steps of 1/g and 1/g² with g³ = g + 1.
 *
 * @source roberts-r2
 */
function scatter({ along, across }: Lattice): readonly [Int32Array, Int32Array] {
  const g = 1.324_717_957_244_746
  const [alongBy, acrossBy] = [new Int32Array(WIDE * HIGH), new Int32Array(WIDE * HIGH)]
  for (let part = 0; part < WIDE * HIGH; part++) {
    const [x, y] = [(0.5 + (part + 1) / g) % 1, (0.5 + (part + 1) / g ** 2) % 1]
    alongBy[part] = along(x, y)
    acrossBy[part] = across(x, y)
  }
  return [alongBy, acrossBy]
}

/** Cells of the patch on which evenness is judged, and how far a tone's area may be off. */
const JUDGED_CELLS = 10
const MOST_OFF_SHARE = 1 / 1000

/** Whether the pixels of ten by ten cells meet all thresholds alike. */
function isEven(table: Uint16Array, { along, across, cellPx }: Lattice): boolean {
  const side = Math.ceil(JUDGED_CELLS * cellPx)
  const counts = new Uint32Array(256)
  for (let at = 0; at < side ** 2; at++) {
    const [x, y] = [(at % side) + 0.5, Math.floor(at / side) + 0.5]
    const place = (across(x, y) >>> PLACE_SHIFT) * CELL_SIDE + (along(x, y) >>> PLACE_SHIFT)
    counts[Math.floor((table[place] * 256) / SOLID)] += 1
  }
  let met = 0
  return counts.every((count, at) => {
    met += count
    return Math.abs(met / side ** 2 - (at + 1) / 256) <= MOST_OFF_SHARE
  })
}
