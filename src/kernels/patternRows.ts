import type { DotRow } from './filmRows.ts'
import type { Kernel } from './kernel.ts'

/** How a screen draws, as data: a kernel draws several rows at once by it. */
export type Pattern = MaskPattern | DotPattern

/** Black where the threshold is below the tone. */
export type MaskPattern = Readonly<{
  kind: 'mask'
  /** MASK_LINES rows of as many thresholds 0 … 65 535, each for dotPx by dotPx pixels. */
  thresholds: Uint16Array
  dotPx: number
}>

/** Dots as `DotRow` has them. */
export type DotPattern = Readonly<{
  kind: 'dots'
  shape: DotRow['shape']
  du: number
  dv: number
  /** u or v of a row's first pixel. */
  uOf: (y: number) => number
  vOf: (y: number) => number
  /** Scatter of rows, again and again; null: none. */
  patch: readonly Int16Array[] | null
}>

export const MASK_LINES = 128

/** Rows of the film that lie between two of the artwork: a band's from `at` on, the film's from y on. */
export type Run = Readonly<{ at: number; y: number; rows: number }>

/** Draws one plate in bands that lie in a kernel. */
export type PatternDrawer = Readonly<{
  /** The whole band, row after row of whole bytes. */
  bits: Uint8Array
  /** @param between addresses of two rows of 15 bits, as an enlarger holds them, and of room for one */
  draw: (run: Run, between: Between) => void
}>

export type Between = Readonly<{ aboveAt: number; belowAt: number; rowAt: number }>

/** Of a band: how far each row of the film is from the artwork's row before it, in 1/32 768. */
export type BandPlan = Readonly<{ widthPx: number; bandRows: number; parts: Int16Array }>

/** What a drawer takes of the room. */
export function patternBytes(pattern: Pattern, { widthPx, bandRows, parts }: BandPlan): number {
  const own =
    pattern.kind === 'mask'
      ? 2 * MASK_LINES ** 2 * (pattern.dotPx + 1)
      : 16 * bandRows + (pattern.patch ?? []).reduce((sum, { byteLength }) => sum + byteLength, 0)
  return bandBytes(widthPx, bandRows) + whole(parts.byteLength) + own
}

/** Sixteen pixels are written at once. */
function bandBytes(widthPx: number, bandRows: number): number {
  return whole(bandRows * Math.ceil(widthPx / 8) + 1)
}

function whole(bytes: number): number {
  return 16 * Math.ceil(bytes / 16)
}

/** Laid out from an address on: `patternBytes` of it. */
export function patternDrawerAt(
  first: number,
  pattern: Pattern,
  { plan, buffer, named }: Readonly<{ plan: BandPlan }> & Pick<Kernel, 'named'> & Kernel['memory'],
): PatternDrawer {
  const { widthPx, bandRows, parts } = plan
  const rowBytes = Math.ceil(widthPx / 8)
  const partsAt = first + bandBytes(widthPx, bandRows)
  const ownAt = partsAt + whole(parts.byteLength)
  new Int16Array(buffer, partsAt, parts.length).set(parts)
  const bits = new Uint8Array(buffer, first, bandRows * rowBytes)
  if (pattern.kind === 'mask') {
    const { dotPx, thresholds } = pattern
    const period = MASK_LINES * dotPx
    const thresholdsAt = ownAt + 2 * MASK_LINES * period
    new Uint16Array(buffer, thresholdsAt, thresholds.length).set(thresholds)
    named('layLines')(thresholdsAt, thresholds.length, dotPx, ownAt)
    const drawRows = named('maskRows')
    return {
      bits,
      draw: ({ at, y, rows }, { aboveAt, belowAt }) => {
        const [own, into] = [partsAt + 2 * y, first + at * rowBytes]
        drawRows(aboveAt, belowAt, widthPx, own, y, rows, ownAt, period, dotPx, into, rowBytes)
      },
    }
  }
  const { uOf, vOf, du, dv, patch } = pattern
  const shape = SHAPES.indexOf(pattern.shape)
  const phases = new Int32Array(buffer, ownAt, 4 * bandRows)
  const patchAt = ownAt + 16 * bandRows
  const [patchRows, patchBytes] = [patch?.length ?? 1, patch?.[0].byteLength ?? 0]
  patch?.forEach((own, y) => {
    new Int16Array(buffer, patchAt + y * patchBytes, own.length).set(own)
  })
  const drawRows = named('dotRows')
  return {
    bits,
    draw: ({ at, y, rows }, { aboveAt, belowAt, rowAt }) => {
      for (let row = 0; row < rows; row++) {
        phases[4 * row] = uOf(y + row)
        phases[4 * row + 1] = vOf(y + row)
        phases[4 * row + 2] = patch === null ? 0 : patchAt + patchBytes * ((y + row) % patchRows)
      }
      const [own, into] = [partsAt + 2 * y, first + at * rowBytes]
      drawRows(shape, aboveAt, belowAt, widthPx, own, ownAt, rows, du, dv, rowAt, into, rowBytes)
    },
  }
}

const SHAPES: readonly DotRow['shape'][] = ['round', 'elliptical', 'line']
