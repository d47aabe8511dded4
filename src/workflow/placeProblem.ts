import { evennessOnMap } from '../core/light/evennessMap.ts'
import { lightOnMarks, lightSurface } from '../core/placement/light.ts'
import { glassPlaceOf, insideFrame, type OnGlass } from '../core/placement/onGlass.ts'
import type {
  Box,
  FilmToPlace,
  InsideFrame,
  PlacedFilm,
  PlacementProblem,
} from '../core/placement/problem.ts'
import { mm } from '../core/units/quantity.ts'

type Sides = Readonly<{ widthMm: number; heightMm: number }>
type Point = Readonly<{ xMm: number; yMm: number }>

/** A film as the shop knows it. */
type PlaceFilm = Sides &
  Readonly<{
    name: string
    marks: Box | null
    /** Parts as [x, y] from the sheet’s top left. */
    outline: readonly (readonly (readonly number[])[])[] | null
  }>

/** A screen on a glass with films under it: what all rules and wishes rest on. */
export type Laying = Readonly<{
  frame: InsideFrame
  outside: Sides
  films: readonly PlaceFilm[]
  clearance: PlacementProblem['clearance']
  /** Null: nobody told how large the glass is, or where the screen lies. */
  onGlass: OnGlass | null
  glass:
    | (Sides &
        Readonly<{
          marks: readonly Box[]
          /** The light as a surface; places from the front left corner. */
          light: Readonly<{ low: Point; high: Point; coefficients: readonly number[] }> | null
        }>)
    | null
}>

/** Common practice about 150 mm, no source: off-contact is why. */
export const USUAL_CLEARANCE_MM = 150

/**
 * The films inside the frame with what lies on the glass under it kept clear, and the lamp’s light
 * there; all may be turned by a quarter.
 */
export function problemOf(laying: Laying): PlacementProblem {
  const { frame, outside, films, clearance, glass, onGlass } = laying
  const shareAt = lightInFrame(laying)
  const under = onGlass === null ? [] : (glass?.marks ?? [])
  return {
    frame: { insideWidthMm: frame.insideWidthMm, insideHeightMm: frame.insideHeightMm },
    ...(shareAt === null ? {} : { light: lightSurface(shareAt, frame) }),
    films: films.map(({ name, widthMm, heightMm, marks, outline }): FilmToPlace => {
      const sheet = { name, widthMm, heightMm, turn: 'quarter' } as const
      if (marks === null) return sheet
      if (outline === null) return { ...sheet, marks }
      const parts = outline.map((part) => part.map(([xMm = 0, yMm = 0]) => ({ xMm, yMm })))
      return { ...sheet, marks, outline: parts }
    }),
    clearance,
    keepOut: under.flatMap((mark) => {
      const seen = onGlass === null ? null : insideFrame(mark, { frame, outside, laid: onGlass })
      return seen === null ? [] : [seen]
    }),
  }
}

/** Least and most light on the marks of all films, the middle of the glass being 1; null unmeasured. */
export function lightOn(
  laying: Laying,
  placed: readonly Omit<PlacedFilm, 'name'>[],
): Readonly<{ least: number; most: number }> | null {
  return lightOnMarks(problemOf(laying), placed)
}

/** The light at a place inside the frame, the middle of the glass being 1; null unmeasured. */
export function lightInFrame({
  frame,
  outside,
  glass,
  onGlass,
}: Laying): ((place: Point) => number) | null {
  if (glass === null || glass.light === null || onGlass === null) return null
  const { light, heightMm } = glass
  const corner = ({ xMm, yMm }: Point) => ({ xMm: mm(xMm), yMm: mm(yMm) })
  const map = {
    surface: 'quadratic',
    because: '',
    residualSd: null,
    low: corner(light.low),
    high: corner(light.high),
    coefficients: light.coefficients,
  } as const
  return (place) => {
    const at = glassPlaceOf(place, { frame, outside, laid: onGlass })
    // wedges are placed from the front left corner
    return evennessOnMap(map, { xMm: mm(at.xMm), yMm: mm(heightMm - at.yMm) }).value
  }
}
