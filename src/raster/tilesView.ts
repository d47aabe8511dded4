import { BESIDE_MARK, COVERS, EDGE, OUTSIDE, PHASES, SIGN_SHIFT } from './paintPalette.ts'
import type { ViewPlanes } from './paintTile.ts'
import { type CellWindow, cellWindow, type TileAt } from './tilesWindow.ts'

/** A rectangle of shown pixels over a film: where its corner lies, and how large a film pixel is. */
export type View = Readonly<{
  widthPx: number
  heightPx: number
  /** The film pixel, with parts, at the view's top left corner. */
  left: number
  top: number
  /** Shown pixels a film pixel. */
  scale: number
  /** Shown pixels a unit of line width: 1, or 2 and 3 on dense screens. */
  density: number
}>

export type ViewSource = Readonly<{
  film: Readonly<{ widthPx: number; heightPx: number }>
  levels: number
  tileAt: TileAt
  markByte: number
}>

/** A rectangle of cells of one level. */
export type CellArea = Readonly<{
  level: number
  left: number
  top: number
  across: number
  down: number
}>

/** The level whose cells are shown 0.75 to 1.5 pixels large; the finest beyond that. */
export function levelOfScale(scale: number, levels: number): number {
  const level = Math.ceil(-Math.log2(scale / 0.75) - 1e-9)
  return Math.min(levels - 1, Math.max(0, level))
}

/** The cells of a level that a view looks at, with one more on each side. */
export function cellsOfView(view: View, level: number): CellArea {
  const cells = view.scale * 2 ** level
  const left = Math.floor(view.left / 2 ** level - 0.5) - 1
  const top = Math.floor(view.top / 2 ** level - 0.5) - 1
  return {
    level,
    left,
    top,
    across: Math.ceil(view.widthPx / cells) + 4,
    down: Math.ceil(view.heightPx / cells) + 4,
  }
}

/**
 * Lays tiles out under a view. Cover is smooth between cells (from threefold size on, film pixels
 * are squares); codes are the nearest cell's that has marks, so no mark fades into its ground.
 */
export function viewPlanes(view: View, source: ViewSource): ViewPlanes {
  const level = levelOfScale(view.scale, source.levels)
  const window = cellWindow(cellsOfView(view, level), source)
  const size = view.widthPx * view.heightPx
  const planes = {
    codes: new Uint32Array(size),
    bases: new Uint16Array(size),
    film: new Uint8Array(size),
  }
  const cover = new Uint8Array(size)
  layOut(view, window, planes, cover)
  sign(view, source.film, planes.bases, cover)
  return planes
}

/** Where each column or row of the view falls: the cell before it, and how far it is past that one's middle. */
function steps(
  {
    from,
    cell,
    count,
    smooth,
  }: Readonly<{ from: number; cell: number; count: number; smooth: boolean }>,
  first: number,
): Readonly<{ cells: Int32Array; parts: Uint8Array }> {
  const cells = new Int32Array(count)
  const parts = new Uint8Array(count)
  for (let at = 0; at < count; at += 1) {
    const place = from + (at + 0.5) / cell - (smooth ? 0.5 : 0)
    cells[at] = Math.floor(place) - first
    parts[at] = smooth ? Math.min(15, Math.floor((place - Math.floor(place)) * 16)) : 0
  }
  return { cells, parts }
}

function layOut(view: View, window: CellWindow, planes: ViewPlanes, cover: Uint8Array): void {
  const { widthPx, heightPx } = view
  const cell = view.scale * 2 ** window.level
  const smooth = cell < 3
  const columns = steps(
    { from: view.left / 2 ** window.level, cell, count: widthPx, smooth },
    window.left,
  )
  const rows = steps(
    { from: view.top / 2 ** window.level, cell, count: heightPx, smooth },
    window.top,
  )
  const { across } = window
  for (let y = 0, to = 0; y < heightPx; y += 1) {
    const line = rows.cells[y] * across
    const down = rows.parts[y]
    for (let x = 0; x < widthPx; x += 1, to += 1) {
      const a = line + columns.cells[x]
      const right = columns.parts[x]
      const b = a + (right > 0 ? 1 : 0)
      const c = down > 0 ? across : 0
      const coverA = window.cover[a]
      const coverB = window.cover[b]
      const coverC = window.cover[a + c]
      const coverD = window.cover[b + c]
      let nearest = (right >= 8 ? b : a) + (down >= 8 ? c : 0)
      const sum = coverA + coverB + coverC + coverD
      if (sum > 0) {
        const upper = coverA * (16 - right) + coverB * right
        const lower = coverC * (16 - right) + coverD * right
        cover[to] = (upper * (16 - down) + lower * down) >> 8
        if (window.cover[nearest] === 0 && cover[to] >= FAINTEST) {
          nearest = heaviest(a, b, c, right, down, coverA, coverB, coverC, coverD)
        }
      }
      planes.codes[to] = window.codes[nearest]
      planes.film[to] = window.film[nearest]
    }
  }
}

/** Cover below this is none: it would not be one step of the palette. */
const FAINTEST = 256 / COVERS

/** Of four cells the one whose marks weigh most here. */
function heaviest(
  a: number,
  b: number,
  c: number,
  right: number,
  down: number,
  coverA: number,
  coverB: number,
  coverC: number,
  coverD: number,
): number {
  const weightA = coverA * (16 - right) * (16 - down)
  const weightB = coverB * right * (16 - down)
  const weightC = coverC * (16 - right) * down
  const weightD = coverD * right * down
  if (weightA >= weightB && weightA >= weightC && weightA >= weightD) return a
  if (weightB >= weightC && weightB >= weightD) return b
  return weightC >= weightD ? a + c : b + c
}

/** Width of a turn of the threads, in units of line width. */
const TURN = 14
const ACROSS_TURN = 11

/** Threads, edges and the film's own border. */
function sign(
  view: View,
  film: Readonly<{ widthPx: number; heightPx: number }>,
  bases: Uint16Array,
  cover: Uint8Array,
): void {
  const { widthPx, heightPx, scale, density } = view
  const slant = phases(2 * TURN * density)
  const across = phases(ACROSS_TURN * density)
  const near = Math.max(1, Math.round(density))
  const far = Math.max(2, Math.round(2 * density))
  // threads stay on the film while the view moves over it
  const shiftX = Math.round(view.left * scale)
  const shiftY = Math.round(view.top * scale)
  const firstX = Math.ceil(-view.left * scale - 0.5)
  const endX = Math.ceil((film.widthPx - view.left) * scale - 0.5)
  const firstY = Math.ceil(-view.top * scale - 0.5)
  const endY = Math.ceil((film.heightPx - view.top) * scale - 0.5)
  const startX = Math.min(widthPx, Math.max(0, firstX))
  const stopX = Math.max(startX, Math.min(widthPx, endX))
  const startY = Math.min(heightPx, Math.max(0, firstY))
  const stopY = Math.max(startY, Math.min(heightPx, endY))
  bases.fill(OUTSIDE << SIGN_SHIFT)
  for (let y = startY; y < stopY; y += 1) {
    const inner = y >= far && y < heightPx - far
    const up = inner ? far * widthPx : 0
    const upNear = inner ? near * widthPx : 0
    let turn = modulo(2 * (startX + shiftX) + y + shiftY, slant.length)
    let turnAcross = modulo(startX + shiftX, across.length)
    for (let x = startX, to = y * widthPx + startX; x < stopX; x += 1, to += 1) {
      const own = cover[to]
      const side = x >= far && x < widthPx - far
      if (own >= FAINTEST) {
        const step = side ? near : 0
        const edge =
          own < 250 ||
          cover[to - step] < 128 ||
          cover[to + step] < 128 ||
          cover[to - upNear] < 128 ||
          cover[to + upNear] < 128
        bases[to] = ((slant[turn] + (edge ? EDGE : 0)) << SIGN_SHIFT) | (own >> 3)
      } else {
        const step = side ? far : 0
        const beside = own + cover[to - step] + cover[to + step] + cover[to - up] + cover[to + up]
        bases[to] = (beside > 0 ? BESIDE_MARK : across[turnAcross]) << SIGN_SHIFT
      }
      turn += 2
      if (turn >= slant.length) turn -= slant.length
      turnAcross += 1
      if (turnAcross === across.length) turnAcross = 0
    }
  }
}

/** Which phase each place within a turn has. */
function phases(turn: number): Uint8Array {
  const length = Math.max(PHASES, Math.round(turn))
  return new Uint8Array(length).map((_, at) => Math.floor((at * PHASES) / length))
}

function modulo(value: number, by: number): number {
  return ((value % by) + by) % by
}
