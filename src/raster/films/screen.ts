import { blueNoise, MASK_SIDE } from '../../core/halftone/blueNoise.ts'
import { ordersOfTones } from '../../core/halftone/dotShapes.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { type FilmRows, filmRows, filmRowsHolding } from '../../kernels/filmRows.ts'
import { maskRanks } from '../../kernels/maskRanks.ts'
import type { MaskPattern, Pattern } from '../../kernels/patternRows.ts'
import { dotDrawing, dotPattern } from './dotScreen.ts'
import { lookedUp } from './tones.ts'

/** Turns rows of tones into rows of bits; a row's place on the film decides where its dots stand. */
export type Screen = Readonly<{
  /**
   * @param y the row on the film, 0 at its top
   * @param tones 0 … 65 535 (solid), one a pixel
   * @param bits one row, its first pixel in the highest bit, 1 for black; written whole
   */
  row: (y: number, tones: Uint16Array, bits: Uint8Array) => void
  /** As `row`, of tones that went through `table`; quickest where they lie in a kernel's memory. */
  drawn: (y: number, tones: Uint16Array, bits: Uint8Array) => void
  /**
   * What the screen draws for each tone. Nothing stays nothing, solid stays solid and more stays more:
   * it may be looked up before tones are enlarged, where there are fewer. Null: the tones themselves.
   */
  table: Uint16Array | null
  drawing: Drawing
  /** What it draws by, where a kernel can draw several rows at once by it; else null. */
  pattern: Pattern | null
}>

/** How a screen draws with rows of a kernel; null where these have no room for it. */
export type Drawing = (rows: FilmRows, widthPx: number) => DrawRow | null

/** Bits of a row of tones that lies in the same kernel; they hold until the next is drawn. */
export type DrawRow = (y: number, tones: Uint16Array) => Uint8Array

/** @param pixelUm side of the film's pixels */
export function screenOf(halftone: Halftone, { pixelUm }: Readonly<{ pixelUm: number }>): Screen {
  if (halftone.kind === 'stochastic') {
    const pattern = maskPattern(halftone, { pixelUm })
    return screenFrom(maskDrawing(pattern), { pattern })
  }
  const pattern = dotPattern(halftone, { pixelUm })
  return screenFrom(dotDrawing(pattern), { pattern, table: tableFor(halftone) })
}

/** The table of all screens of a halftone, whatever their angle. */
export function tableFor(halftone: Halftone | null): Uint16Array | null {
  return halftone?.kind === 'dot' ? ordersOfTones(halftone.shape) : null
}

/** Without a halftone a pixel is black from half a tone up. */
export function solidScreen(): Screen {
  return screenFrom((rows, widthPx) => {
    const bits = rows.bits(widthPx)
    if (bits === null) return null
    return (_, tones) => {
      rows.solid(tones, bits)
      return bits
    }
  })
}

/** A screen that draws rows where they lie, and copies of those that lie in no kernel. */
export function screenFrom(
  drawing: Drawing,
  { table = null, pattern = null }: Partial<Pick<Screen, 'table' | 'pattern'>> = {},
): Screen {
  const drawings = new WeakMap<FilmRows, DrawRow | null>()
  const drawingOn = (tones: Uint16Array): DrawRow | null => {
    const rows = filmRowsHolding(tones)
    if (rows === null) return null
    const kept = drawings.get(rows)
    if (kept !== undefined) return kept
    const draw = drawing(rows, tones.length)
    drawings.set(rows, draw)
    return draw
  }
  let own: ReturnType<typeof ownRows> | null = null
  const ownFor = ({ length }: Uint16Array): ReturnType<typeof ownRows> => {
    if (own?.tones.length !== length) own = ownRows(drawing, length)
    return own
  }
  const drawn: Screen['drawn'] = (y, tones, bits) => {
    const inPlace = drawingOn(tones)
    if (inPlace !== null) {
      bits.set(inPlace(y, tones))
      return
    }
    const held = ownFor(tones)
    held.tones.set(tones)
    bits.set(held.draw(y, held.tones))
  }
  return {
    row: (y, tones, bits) => {
      if (table === null) {
        drawn(y, tones, bits)
        return
      }
      const held = ownFor(tones)
      lookedUp(tones, table, held.tones)
      bits.set(held.draw(y, held.tones))
    },
    drawn,
    table,
    drawing,
    pattern,
  }
}

function ownRows(
  drawing: Drawing,
  widthPx: number,
): Readonly<{ tones: Uint16Array; draw: DrawRow }> {
  const rows = filmRows({ roomBytes: 4 * widthPx + 64 })
  const [tones, draw] = [rows.tones(widthPx), drawing(rows, widthPx)]
  if (tones === null || draw === null) throw new RangeError('screen: expected room for one row')
  return { tones, draw }
}

/** Every plate of a film lays the same mask. */
const MASKS = new Map<number, Uint16Array>()
const MOST_MASKS = 8

function maskOf(seed: number): Uint16Array {
  const mask = MASKS.get(seed) ?? blueNoise({ seed }, maskRanks)
  if (MASKS.size >= MOST_MASKS) MASKS.clear()
  MASKS.set(seed, mask)
  return mask
}

/**
 * Dots of one size, scattered: a mask laid over the film again and again.
 *
 * @param table what tones go through before they are drawn; thresholds go through it too
 */
export function maskPattern(
  { seed, dotUm }: Omit<Extract<Halftone, { kind: 'stochastic' }>, 'kind'>,
  { pixelUm, table = null }: Readonly<{ pixelUm: number; table?: Uint16Array | null }>,
): MaskPattern {
  const thresholds = maskOf(seed).slice()
  if (table !== null) lookedUp(thresholds, table, thresholds)
  const dotPx = Math.max(1, Math.round((dotUm ?? pixelUm) / pixelUm))
  return { kind: 'mask', thresholds, dotPx }
}

/** A mask, row by row. */
export function maskDrawing({ thresholds, dotPx }: MaskPattern): Drawing {
  return (rows, widthPx) => {
    const [line, bits] = [rows.tones(MASK_SIDE * dotPx), rows.bits(widthPx)]
    if (line === null || bits === null) return null
    let held = -1
    return (y, tones) => {
      const at = Math.floor(y / dotPx) % MASK_SIDE
      if (at !== held) {
        const own = thresholds.subarray(at * MASK_SIDE, (at + 1) * MASK_SIDE)
        if (dotPx === 1) line.set(own)
        else own.forEach((threshold, x) => line.fill(threshold, x * dotPx, (x + 1) * dotPx))
        held = at
      }
      rows.mask(tones, line, bits)
      return bits
    }
  }
}
