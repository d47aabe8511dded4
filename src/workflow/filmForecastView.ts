import type { SurfaceDoses } from '../core/emulsion/doses.ts'
import { leakLimits } from '../core/forecast/classes.ts'
import { lu } from '../core/units/quantity.ts'
import { codeLimits } from '../raster/classify.ts'
import { drawnPalette, paintPalette } from '../raster/paintPalette.ts'
import {
  doseTable,
  paintCells,
  paintDrawn,
  paintPixels,
  type ViewPlanes,
} from '../raster/paintTile.ts'
import type { PictureInks } from '../raster/stencilPicture.ts'
import {
  densityByte,
  densityOfByte,
  TILE_SIDE,
  type TilePlace,
  tileBytes,
} from '../raster/tiles.ts'
import {
  cellsOfView,
  levelOfScale,
  type View,
  type ViewSource,
  viewPlanes,
} from '../raster/tilesView.ts'
import { MARKS_ABOVE } from './watchStencil.ts'

/** Colours of one scheme, made ready once. */
export type FilmPalette = Readonly<{ stencil: Uint32Array; drawn: Uint32Array }>

export type FilmSource = ViewSource

/** Density from which a mark is drawn in full ink. */
const FULL_INK = 1

/** A film that is looked at: its size, its levels, and the tiles that have come so far. */
export function filmSource(
  film: Readonly<{ widthPx: number; heightPx: number }>,
  options: Readonly<{ levels: number; tileAt: ViewSource['tileAt']; marksAbove?: number }>,
): FilmSource {
  const { levels, tileAt, marksAbove = MARKS_ABOVE } = options
  return { film, levels, tileAt, markByte: densityByte(marksAbove) }
}

export function filmPalette(inks: PictureInks): FilmPalette {
  const shades = new Float32Array(256).map((_, byte) => {
    const density = Math.max(0, densityOfByte(byte) - 0.02)
    return Math.min(1, (1 - 10 ** -density) / (1 - 10 ** -FULL_INK))
  })
  return { stencil: paintPalette(inks), drawn: drawnPalette(inks, shades) }
}

/** A view laid out: paint it at as many doses as wanted. */
export type LaidView = Readonly<{
  planes: ViewPlanes
  level: number
  widthPx: number
  heightPx: number
}>

export function layView(view: View, source: FilmSource): LaidView {
  const { widthPx, heightPx } = view
  return {
    planes: viewPlanes(view, source),
    level: levelOfView(view, source.levels),
    widthPx,
    heightPx,
  }
}

/** Paints what will open at a dose into image data's 32-bit pixels. */
export function paintDose(
  { planes, level }: LaidView,
  { doses, doseLu }: Readonly<{ doses: SurfaceDoses; doseLu: number }>,
  palette: FilmPalette,
  target: Uint32Array,
): void {
  const table = doseTable(codeLimits(leakLimits(doses, { doseLu: lu(doseLu) })), level)
  if (level === 0) paintPixels(planes, table, palette.stencil, target)
  else paintCells(planes, table, palette.stencil, target)
}

/** Paints the film as it was drawn. */
export function paintFilm({ planes }: LaidView, palette: FilmPalette, target: Uint32Array): void {
  paintDrawn(planes, palette.drawn, target)
}

/** The level that a view looks at. */
export function levelOfView({ scale }: View, levels: number): number {
  return levelOfScale(scale, levels)
}

/** The tiles a view wants, those in its middle first. @param finest the finest level that is there */
export function tilesOfView(
  view: View,
  { film, levels }: Pick<FilmSource, 'film' | 'levels'>,
  { finest = 0 }: Readonly<{ finest?: number }> = {},
): readonly TilePlace[] {
  const level = Math.max(finest, levelOfView(view, levels))
  const cells = cellsOfView(view, level)
  const side = TILE_SIDE * 2 ** level
  const last = (px: number): number => Math.ceil(px / side) - 1
  const range = (from: number, count: number, most: number): readonly number[] => {
    const first = Math.max(0, Math.floor(from / TILE_SIDE))
    const end = Math.min(most, Math.floor((from + count - 1) / TILE_SIDE))
    return Array.from({ length: Math.max(0, end - first + 1) }, (_, at) => first + at)
  }
  const columns = range(cells.left, cells.across, last(film.widthPx))
  const rows = range(cells.top, cells.down, last(film.heightPx))
  const middleX = (cells.left + cells.across / 2) / TILE_SIDE - 0.5
  const middleY = (cells.top + cells.down / 2) / TILE_SIDE - 0.5
  return rows
    .flatMap((y) => columns.map((x) => ({ level, x, y })))
    .sort(
      (a, b) => Math.hypot(a.x - middleX, a.y - middleY) - Math.hypot(b.x - middleX, b.y - middleY),
    )
}

/** Bytes that a tile has once it is inflated. */
export function inflatedBytes(level: number): number {
  return tileBytes(level)
}
