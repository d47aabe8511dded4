import type { View } from '../../raster/tilesView.ts'

/** A film in pixels and how large they are. */
export type FilmSize = Readonly<{ widthPx: number; heightPx: number; pixelUm: number }>

/** What part of a film is looked at: its middle in film pixels, and CSS pixels a film pixel. */
export type Sight = Readonly<{ x: number; y: number; scale: number }>

/** The box a film is shown in, in CSS pixels. */
export type Box = Readonly<{ widthPx: number; heightPx: number }>

/** Up to so many CSS pixels a film pixel one can come near. */
const NEAREST = 24
/** One press of + or −. */
export const ZOOM_STEP = 1.5
/** Pixels of a picture that are painted anew while a dose is dragged; above, the picture is coarser. */
const MOST_PAINTED = 2_100_000

/** The whole film in the box. */
export function wholeFilm(film: FilmSize, box: Box): Sight {
  return {
    x: film.widthPx / 2,
    y: film.heightPx / 2,
    scale: Math.min(box.widthPx / film.widthPx, box.heightPx / film.heightPx),
  }
}

/** Kept so that the film fills what it can of the box and never leaves it. */
export function kept(sight: Sight, film: FilmSize, box: Box): Sight {
  const least = wholeFilm(film, box).scale
  const scale = Math.min(NEAREST, Math.max(least, sight.scale))
  return {
    scale,
    x: within(sight.x, { whole: film.widthPx, half: box.widthPx / scale / 2 }),
    y: within(sight.y, { whole: film.heightPx, half: box.heightPx / scale / 2 }),
  }
}

function within(
  middle: number,
  { whole, half }: Readonly<{ whole: number; half: number }>,
): number {
  return 2 * half >= whole ? whole / 2 : Math.min(whole - half, Math.max(half, middle))
}

/** Nearer or further, with the film pixel under a place in the box staying there. */
export function zoomed(
  sight: Sight,
  { factor, at }: Readonly<{ factor: number; at: Readonly<{ x: number; y: number }> }>,
  film: FilmSize,
  box: Box,
): Sight {
  const limited = kept({ ...sight, scale: sight.scale * factor }, film, box).scale
  const [fromX, fromY] = [at.x - box.widthPx / 2, at.y - box.heightPx / 2]
  return kept(
    {
      scale: limited,
      x: sight.x + fromX / sight.scale - fromX / limited,
      y: sight.y + fromY / sight.scale - fromY / limited,
    },
    film,
    box,
  )
}

/** The film drawn along by so many CSS pixels. */
export function moved(
  sight: Sight,
  by: Readonly<{ x: number; y: number }>,
  film: FilmSize,
  box: Box,
): Sight {
  const { x, y, scale } = sight
  return kept({ scale, x: x - by.x / scale, y: y - by.y / scale }, film, box)
}

/** Whether two sights show the same. */
export function isSame(a: Sight, b: Sight): boolean {
  return a.x === b.x && a.y === b.y && a.scale === b.scale
}

/** The view to lay out: device pixels, but no more than can be painted in a frame. */
export function viewOf(sight: Sight, box: Box, devicePixelRatio: number): View {
  const most = Math.sqrt(MOST_PAINTED / Math.max(1, box.widthPx * box.heightPx))
  const density = Math.min(devicePixelRatio, most)
  const widthPx = Math.max(1, Math.round(box.widthPx * density))
  const heightPx = Math.max(1, Math.round(box.heightPx * density))
  const scale = sight.scale * density
  return {
    widthPx,
    heightPx,
    left: sight.x - widthPx / scale / 2,
    top: sight.y - heightPx / scale / 2,
    scale,
    density,
  }
}

/** Where a film pixel lies in the box, CSS pixels. */
export function placeInBox(
  at: Readonly<{ x: number; y: number }>,
  sight: Sight,
  box: Box,
): Readonly<{ x: number; y: number }> {
  return {
    x: box.widthPx / 2 + (at.x - sight.x) * sight.scale,
    y: box.heightPx / 2 + (at.y - sight.y) * sight.scale,
  }
}

/** The film pixel under a place in the box. */
export function filmAt(
  at: Readonly<{ x: number; y: number }>,
  sight: Sight,
  box: Box,
): Readonly<{ x: number; y: number }> {
  return {
    x: sight.x + (at.x - box.widthPx / 2) / sight.scale,
    y: sight.y + (at.y - box.heightPx / 2) / sight.scale,
  }
}
