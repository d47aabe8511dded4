import { Failure } from '../core/failure.ts'
import { areaMm2, hullOf, type Outline } from '../core/placement/outline.ts'
import {
  type Box,
  CLEARANCE,
  type FilmToPlace,
  LENGTH,
  MOST_CORNERS,
  MOST_FILMS,
  MOST_KEEP_OUTS,
  MOST_PARTS,
  type PlacementProblem,
} from '../core/placement/problem.ts'
import type { Range } from '../core/units/range.ts'
import { valueOfJson } from './jsonText.ts'
import { type Section, sectionOf } from './section.ts'

/** Common practice about 150 mm, no source: off-contact is why. */
const USUAL_CLEARANCE_MM = 150
const LONGEST_NAME = 80
const NAMED = 'the placement'
const PLACE: Range = { name: 'place', low: -20_000, high: 20_000, unit: 'mm' }

/**
 * Reads the text of a placement: a frame, films, what is kept clear.
 *
 * @throws Failure for what is no JSON, an unknown or missing key, a value out of its range; the field
 * is the key with its place, like `films[0].widthMm`
 */
export function placementFromJson(text: string): PlacementProblem {
  const top = sectionOf(valueOfJson(text, { named: 'The placement' }), { named: NAMED })
  top.allow(['frame', 'films', 'clearance', 'keepOut'])
  if (!top.has('frame'))
    throw top.refusal('frame', 'must be an object with insideWidthMm and insideHeightMm')
  const frame = top.inner('frame')
  frame.allow(['insideWidthMm', 'insideHeightMm'])
  const clearance = top.inner('clearance')
  clearance.allow(['frameMm', 'betweenMm'])
  const kept = (key: string): number =>
    clearance.number(key, { range: CLEARANCE, absent: USUAL_CLEARANCE_MM })
  return {
    frame: {
      insideWidthMm: needed(frame, 'insideWidthMm'),
      insideHeightMm: needed(frame, 'insideHeightMm'),
    },
    films: listOf(top, 'films', { least: 1, most: MOST_FILMS }).map(filmFrom),
    clearance: { frameMm: kept('frameMm'), betweenMm: kept('betweenMm') },
    keepOut: top.has('keepOut')
      ? listOf(top, 'keepOut', { least: 0, most: MOST_KEEP_OUTS }).map((box, at) =>
          boxFrom(box, `keepOut[${at}]`),
        )
      : [],
  }
}

function filmFrom(value: unknown, at: number): FilmToPlace {
  const film = sectionOf(value, { named: NAMED, path: `films[${at}]` })
  film.allow(['name', 'widthMm', 'heightMm', 'turn', 'marks', 'outline'])
  const name = film.has('name') ? film.raw('name') : `film ${at + 1}`
  if (typeof name !== 'string' || name.trim() === '' || name.length > LONGEST_NAME) {
    throw film.refusal('name', `must be a name of at most ${LONGEST_NAME} letters`)
  }
  const sheet = {
    name,
    widthMm: needed(film, 'widthMm'),
    heightMm: needed(film, 'heightMm'),
    turn: film.word('turn', ['fixed', 'quarter']),
  }
  if (film.has('outline')) return { ...sheet, ...outlineFrom(film, sheet) }
  if (!film.has('marks')) return sheet
  const marks = boxFrom(film.raw('marks'), `films[${at}].marks`)
  const [right, bottom] = [marks.xMm + marks.widthMm, marks.yMm + marks.heightMm]
  if (marks.xMm >= 0 && marks.yMm >= 0 && right <= sheet.widthMm && bottom <= sheet.heightMm) {
    return { ...sheet, marks }
  }
  throw film.refusal('marks', 'must lie within its sheet, from its top left corner')
}

/** Parts as lists of [x, y]; each counts by its hull, and all of them together by their rectangle. */
function outlineFrom(
  film: Section,
  { widthMm, heightMm }: Readonly<{ widthMm: number; heightMm: number }>,
): Readonly<{ marks: Box; outline: Outline }> {
  const parts = film.raw('outline')
  const told = `must be a list of at most ${MOST_PARTS} parts, each a list of 3 to ${MOST_CORNERS} places [x, y] on its sheet, not all in one line`
  const isPlace = (place: unknown): place is readonly [number, number] =>
    Array.isArray(place) &&
    place.length === 2 &&
    [widthMm, heightMm].every((most, at) => {
      const value: unknown = place[at]
      return typeof value === 'number' && value >= 0 && value <= most
    })
  if (!Array.isArray(parts) || parts.length === 0 || parts.length > MOST_PARTS) {
    throw film.refusal('outline', told)
  }
  const outline = parts.map((part: unknown) => {
    const isList = Array.isArray(part) && part.length >= 3 && part.length <= MOST_CORNERS
    if (!isList || !part.every(isPlace)) throw film.refusal('outline', told)
    const hull = hullOf(part.map(([xMm, yMm]) => ({ xMm, yMm })))
    if (hull.length < 3 || areaMm2(hull) < LEAST_PART_MM2) throw film.refusal('outline', told)
    return hull
  })
  const [xs, ys] = [outline.flat().map(({ xMm }) => xMm), outline.flat().map(({ yMm }) => yMm)]
  const [xMm, yMm] = [Math.min(...xs), Math.min(...ys)]
  const marks = { xMm, yMm, widthMm: Math.max(...xs) - xMm, heightMm: Math.max(...ys) - yMm }
  return { marks, outline }
}

const LEAST_PART_MM2 = 0.01

function boxFrom(value: unknown, path: string): Box {
  const box = sectionOf(value, { named: NAMED, path })
  box.allow(['xMm', 'yMm', 'widthMm', 'heightMm'])
  const place = (key: string): number => {
    if (!box.has(key)) throw box.refusal(key, 'must be a place in mm from the inside top left')
    return box.number(key, { range: PLACE, absent: 0 })
  }
  return {
    xMm: place('xMm'),
    yMm: place('yMm'),
    widthMm: needed(box, 'widthMm'),
    heightMm: needed(box, 'heightMm'),
  }
}

function needed(section: Section, key: string): number {
  if (!section.has(key)) throw section.refusal(key, 'must be a length in mm, like 420')
  return section.number(key, { range: LENGTH, absent: 420 })
}

function listOf(
  section: Section,
  key: string,
  { least, most }: Readonly<{ least: number; most: number }>,
): readonly unknown[] {
  const list = section.raw(key)
  if (!Array.isArray(list)) throw section.refusal(key, 'must be a list in brackets')
  if (list.length >= least && list.length <= most) return list as readonly unknown[]
  const message = `The placement has ${list.length} ${key}: from ${least} to ${most} can be laid out.`
  throw new Failure('wrong input', message, { field: key })
}
