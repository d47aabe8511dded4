import { distance, marksOf, sheetOf, toFrame } from './boxes.ts'
import { boxAsPart, type Outline, outlineOf, outlinesApart } from './outline.ts'
import type { Box, PlacedFilm, PlacementProblem } from './problem.ts'

export type Rule =
  | 'clearance to the frame'
  | 'clearance between films'
  | 'keep-out'
  /** The sheet itself, where its marks are known to be less. */
  | 'sheet inside the frame'

/** How films that lie somewhere keep one rule. */
type RuleAnswer = Readonly<{
  rule: Rule
  /** The least there is; below 0 where one thing lies on another. */
  leastMm: number
  askedMm: number
  /** By how much it is missed; below 0: kept with so much to spare. */
  shortMm: number
  /** Those it is least for, by their place in the list. */
  films: readonly number[]
}>

/** A placement held against the rules and the wishes. */
export type PlacementCheck = Readonly<{
  verdict: 'fits' | 'does not fit'
  rules: readonly RuleAnswer[]
  /** The rule that is missed by most, or kept by least. */
  worst: RuleAnswer
  /** From the middle of the frame to the middle of all marks: to the right, and towards you. */
  offCentreMm: Readonly<{ xMm: number; yMm: number }>
}>

/** Less is no miss: nobody lays a film to a thousandth of a millimetre. */
const KEPT_MM = 1e-6
/** Which of two rules is worse off is not told by rounding. */
const HARDLY_MM = 1e-7

/**
 * Holds films as they lie against the hard rules, and says how far off the middle they are.
 *
 * @param placed one for each film of the problem, in its order
 * @throws RangeError where they are not as many
 * @source placement-rules
 */
export function checkPlaced(
  problem: PlacementProblem,
  placed: readonly Omit<PlacedFilm, 'name'>[],
): PlacementCheck {
  const { films, frame } = problem
  if (placed.length !== films.length) {
    throw new RangeError(`placed: expected ${films.length} films, got ${placed.length}`)
  }
  const lying = films.flatMap((film, at) => {
    const place = placed[at]
    if (place === undefined) return []
    const marks = marksOf(film, place)
    const outline = film.outline === undefined ? null : outlineOf(film, place)
    return [{ marks, outline, sheet: sheetOf(film, place) }]
  })
  const marks = lying.map((each) => each.marks)
  const rules = [
    ...framed(problem, marks),
    ...sheets(problem, { sheets: lying.map(({ sheet }) => sheet) }),
    ...between(problem, lying),
    ...keptOff(problem, lying),
  ]
  const worst = rules.reduce((most, each) =>
    each.shortMm > most.shortMm + HARDLY_MM ? each : most,
  )
  const [left, top] = [
    Math.min(...marks.map(({ xMm }) => xMm)),
    Math.min(...marks.map(({ yMm }) => yMm)),
  ]
  const right = Math.max(...marks.map(({ xMm, widthMm }) => xMm + widthMm))
  const bottom = Math.max(...marks.map(({ yMm, heightMm }) => yMm + heightMm))
  return {
    verdict: worst.shortMm <= KEPT_MM ? 'fits' : 'does not fit',
    rules,
    worst,
    offCentreMm: {
      xMm: (left + right - frame.insideWidthMm) / 2,
      yMm: (top + bottom - frame.insideHeightMm) / 2,
    },
  }
}

type Least = Readonly<{ leastMm: number; films: readonly number[] }>

function leastOf(all: readonly Least[]): Least | null {
  return all.reduce<Least | null>(
    (least, each) => (least === null || each.leastMm < least.leastMm ? each : least),
    null,
  )
}

function answer(rule: Rule, askedMm: number, least: Least | null): readonly RuleAnswer[] {
  return least === null ? [] : [{ rule, askedMm, shortMm: askedMm - least.leastMm, ...least }]
}

function framed(
  { frame, clearance }: PlacementProblem,
  marks: readonly Box[],
): readonly RuleAnswer[] {
  const each = marks.map((box, at) => ({ leastMm: toFrame(box, frame), films: [at] }))
  return answer('clearance to the frame', clearance.frameMm, leastOf(each))
}

/** Sheets of which the marks are known keep inside the frame too: on its wood they would not lie flat. */
function sheets(
  { frame, films }: PlacementProblem,
  { sheets: boxes }: Readonly<{ sheets: readonly Box[] }>,
): readonly RuleAnswer[] {
  const each = boxes.flatMap((box, at) =>
    films[at]?.marks === undefined ? [] : [{ leastMm: toFrame(box, frame), films: [at] }],
  )
  return answer('sheet inside the frame', 0, leastOf(each))
}

/** The marks of a film as it lies: their rectangle, and their outline where it is known. */
type Marks = Readonly<{ marks: Box; outline: Outline | null }>

function between({ clearance }: PlacementProblem, lying: readonly Marks[]): readonly RuleAnswer[] {
  const pairs = lying.flatMap((one, at) =>
    lying.slice(at + 1).map((other, further) => ({
      leastMm: marksApart(one, other),
      films: [at, at + 1 + further],
    })),
  )
  return answer('clearance between films', clearance.betweenMm, leastOf(pairs))
}

function keptOff({ keepOut }: PlacementProblem, lying: readonly Marks[]): readonly RuleAnswer[] {
  const each = lying.flatMap((one, at) =>
    keepOut.map((kept) => ({
      leastMm: marksApart(one, { marks: kept, outline: null }),
      films: [at],
    })),
  )
  return answer('keep-out', 0, leastOf(each))
}

function marksApart(one: Marks, other: Marks): number {
  if (one.outline === null && other.outline === null) return distance(one.marks, other.marks)
  const outline = (film: Marks): Outline => film.outline ?? [boxAsPart(film.marks)]
  return outlinesApart(outline(one), outline(other))
}
