import { FATES, type Overview } from './overview.ts'

export type Rgb = readonly [number, number, number]

/** The inks of a picture for people. */
export type PictureInks = Readonly<{ sheet: Rgb; ink: Rgb; cut: Rgb; soft: Rgb }>

/** A canvas of RGB rows that a picture is painted into. */
export type Canvas = Readonly<{ rgb: Uint8Array; widthPx: number; heightPx: number }>

/**
 * Paints the stencil in the signs that all pages share: what opens in full ink; marks in doubt as
 * threads one way, closer for a thicker skin; marks that stay shut as an outline; ground that may
 * wash away as threads across. A share of a cell is never too small to be seen.
 */
export function paintStencil(
  overview: Overview,
  inks: PictureInks,
  { rgb, widthPx }: Canvas,
  { left, top }: Readonly<{ left: number; top: number }>,
): void {
  const { across, down, shares } = overview
  const cover = coverage(overview)
  for (let y = 0; y < down; y += 1) {
    for (let x = 0; x < across; x += 1) {
      const cell = y * across + x
      const at = 8 * cell
      const pixel = 3 * ((top + y) * widthPx + left + x)
      let colour = inks.sheet
      if (cover[cell] === 0) {
        const loose = shares[at + FATES.groundOpen] + shares[at + FATES.groundVeiled]
        if (loose > 0.5 && aloneOnGround(cover, overview, x, y) && x % 9 === 0) {
          colour = inks.soft
        }
      } else {
        const outline = shares[at + FATES.markClosed] > 0 && isEdge(cover, overview, x, y)
        colour = mix(colour, inks.soft, outline ? seen(shares[at + FATES.markClosed]) * 0.8 : 0)
        const along = (x + 2 * y) % 100_000
        const thin = along % 9 < 3 ? 1 : 0.08
        const thick = along % 5 < 3 ? 1 : 0.08
        colour = mix(colour, inks.cut, seen(shares[at + FATES.markVeiled]) * thin)
        colour = mix(colour, inks.cut, seen(shares[at + FATES.markSoft]) * thick)
        colour = mix(colour, inks.ink, seen(shares[at + FATES.markOpen]))
      }
      rgb[pixel] = colour[0]
      rgb[pixel + 1] = colour[1]
      rgb[pixel + 2] = colour[2]
    }
  }
}

/** Ink for a share: never less than a third once there is any, full from two thirds. */
function seen(share: number): number {
  return share <= 0 ? 0 : Math.min(1, 0.33 + share)
}

function mix(from: Rgb, to: Rgb, part: number): Rgb {
  if (part <= 0) return from
  return [
    Math.round(from[0] + (to[0] - from[0]) * part),
    Math.round(from[1] + (to[1] - from[1]) * part),
    Math.round(from[2] + (to[2] - from[2]) * part),
  ]
}

/** Share of each cell that belongs to marks. */
function coverage({ shares, across, down }: Overview): Float32Array {
  const cover = new Float32Array(across * down)
  for (let cell = 0; cell < cover.length; cell += 1) {
    for (let fate = FATES.markOpen; fate <= FATES.markClosed; fate += 1)
      cover[cell] += shares[8 * cell + fate]
  }
  return cover
}

/** A cell at the edge of a mark: itself or a neighbour partly ground. */
function isEdge(cover: Float32Array, { across, down }: Overview, x: number, y: number): boolean {
  const cell = y * across + x
  if (cover[cell] < 0.999) return true
  return (
    (x > 0 && cover[cell - 1] < 0.5) ||
    (x + 1 < across && cover[cell + 1] < 0.5) ||
    (y > 0 && cover[cell - across] < 0.5) ||
    (y + 1 < down && cover[cell + across] < 0.5)
  )
}

/** No mark in the cell or beside it, so its state is not just the edge of a mark. */
function aloneOnGround(
  cover: Float32Array,
  { across, down }: Overview,
  x: number,
  y: number,
): boolean {
  for (let j = Math.max(0, y - 1); j <= Math.min(down - 1, y + 1); j += 1) {
    for (let i = Math.max(0, x - 1); i <= Math.min(across - 1, x + 1); i += 1) {
      if (cover[j * across + i] > 0) return false
    }
  }
  return true
}
