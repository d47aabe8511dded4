import type { LaidFilm } from '../../api/place.ts'
import { sheetOf } from '../../core/placement/boxes.ts'
import type { InsideFrame } from '../../core/placement/problem.ts'

type Sides = Readonly<{ widthMm: number; heightMm: number }>

/** Films as they are wanted, and where they lie meanwhile if that is elsewhere. */
export type PlaceState = Readonly<{
  /** By hand; else as it was kept, or where it is best. */
  wanted: readonly LaidFilm[] | 'kept' | 'best'
  /** Null: nobody said that they lie elsewhere. */
  now: readonly LaidFilm[] | null
  /** The film that keys and fields move, and which of its two outlines. */
  picked: number
  which: Which
}>
export type Which = 'wanted' | 'now'

export type PlaceEvent =
  | Readonly<{ kind: 'pick'; film: number; which: Which }>
  /** By so much, from whole millimetres. */
  | Readonly<{ kind: 'step'; xMm: number; yMm: number }>
  /** The picked one to a place. */
  | Readonly<{ kind: 'put'; xMm: number; yMm: number }>
  | Readonly<{ kind: 'turn' }>
  | Readonly<{ kind: 'best' }>
  /** They lie elsewhere: the outlines can be moved to where. */
  | Readonly<{ kind: 'elsewhere' }>
  | Readonly<{ kind: 'kept' }>

/** What the outlines are drawn from. */
export type Ground = Readonly<{
  frame: InsideFrame
  films: readonly Sides[]
  best: readonly LaidFilm[]
  kept: readonly LaidFilm[] | null
}>

export function firstState({ kept }: Pick<Ground, 'kept'>): PlaceState {
  return { wanted: kept === null ? 'best' : 'kept', now: null, picked: 0, which: 'wanted' }
}

/** Where the films are wanted, in the order of the films. */
export function wantedOf({ wanted }: PlaceState, { best, kept }: Ground): readonly LaidFilm[] {
  if (wanted === 'best') return best
  if (wanted !== 'kept') return wanted
  return best.map((film) => kept?.find((each) => each.film === film.film) ?? film)
}

export function nextPlace(state: PlaceState, event: PlaceEvent, ground: Ground): PlaceState {
  switch (event.kind) {
    case 'pick':
      return { ...state, picked: event.film, which: event.which }
    case 'step':
      return changed(state, ground, (film) => ({
        ...film,
        xMm: Math.round(film.xMm) + event.xMm,
        yMm: Math.round(film.yMm) + event.yMm,
      }))
    case 'put':
      return changed(state, ground, (film) => ({ ...film, xMm: event.xMm, yMm: event.yMm }))
    case 'turn':
      return changed(state, ground, (film, sides) => turnedAbout(film, sides))
    case 'best':
      return { ...state, wanted: 'best', which: 'wanted' }
    case 'elsewhere':
      return { ...state, now: state.now ?? wantedOf(state, ground), which: 'now' }
    case 'kept':
      return { ...state, wanted: 'kept', now: null, which: 'wanted' }
  }
}

/** So much of a sheet stays in sight, however far it is dragged. */
const IN_SIGHT_MM = 20

function changed(
  state: PlaceState,
  ground: Ground,
  change: (film: LaidFilm, sides: Sides) => LaidFilm,
): PlaceState {
  const all = (state.which === 'now' ? state.now : null) ?? wantedOf(state, ground)
  const films = all.map((film, at) => {
    const sides = ground.films[at]
    if (at !== state.picked || sides === undefined) return film
    return inSight(change(film, sides), sides, ground.frame)
  })
  return state.which === 'now' ? { ...state, now: films } : { ...state, wanted: films }
}

function turnedAbout(film: LaidFilm, sides: Sides): LaidFilm {
  const { xMm, yMm, widthMm, heightMm } = sheetOf(sides, film)
  const half = (widthMm - heightMm) / 2
  return { ...film, turned: !film.turned, xMm: xMm + half, yMm: yMm - half }
}

function inSight(film: LaidFilm, sides: Sides, frame: InsideFrame): LaidFilm {
  const { widthMm, heightMm } = sheetOf(sides, film)
  const held = (at: number, length: number, inside: number): number =>
    Math.min(inside - IN_SIGHT_MM, Math.max(IN_SIGHT_MM - length, at))
  return {
    ...film,
    xMm: held(film.xMm, widthMm, frame.insideWidthMm),
    yMm: held(film.yMm, heightMm, frame.insideHeightMm),
  }
}

/** How a hand moves a film from one place to another: across, and to or from whoever stands there. */
export type Move = Readonly<{ way: 'left' | 'right' | 'away' | 'toward' | 'turn'; mm: number }>

/** Less is not told: nobody lays a film so finely. */
const LEAST_MM = 0.5

/** Moved by the middle of the sheet, so that a turn is a turn in its place. */
export function movesOf(from: LaidFilm, to: LaidFilm, sides: Sides): readonly Move[] {
  const [a, b] = [middle(from, sides), middle(to, sides)]
  const [x, y] = [b.xMm - a.xMm, b.yMm - a.yMm]
  const moves: Move[] = from.turned === to.turned ? [] : [{ way: 'turn', mm: 0 }]
  if (Math.abs(x) >= LEAST_MM) moves.push({ way: x < 0 ? 'left' : 'right', mm: Math.abs(x) })
  if (Math.abs(y) >= LEAST_MM) moves.push({ way: y < 0 ? 'away' : 'toward', mm: Math.abs(y) })
  return moves
}

function middle(film: LaidFilm, sides: Sides): Readonly<{ xMm: number; yMm: number }> {
  const { xMm, yMm, widthMm, heightMm } = sheetOf(sides, film)
  return { xMm: xMm + widthMm / 2, yMm: yMm + heightMm / 2 }
}
