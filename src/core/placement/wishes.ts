import { checkPlaced } from './check.ts'
import { lightOnMarks } from './light.ts'
import type { PlacedFilm, PlacementProblem } from './problem.ts'

/**
 * What a wish weighs against another, in mm of clearance beyond what is asked; judged. A difference
 * of 1 % in light across all marks is worth 10 mm, 1 mm off the middle is worth 1 mm.
 */
const WEIGHS = { lightPerPercent: 10, offCentre: 1 }

/** All rules are kept where no more is missed. */
const KEPT_MM = 1e-6
/** Any miss is worse than any wish. */
const BROKEN = 1e6

/**
 * How far an arrangement is from what is wished, in mm: lower is better. Rules come first; where they
 * are kept light across the marks, the way off the middle and the worst clearance count.
 *
 * @source placement-rules
 */
export function wishedFor(
  problem: PlacementProblem,
  placed: readonly Omit<PlacedFilm, 'name'>[],
): number {
  const { worst, offCentreMm, rules } = checkPlaced(problem, placed)
  // films never lie on each other, whatever else is missed
  const between = rules.find(({ rule }) => rule === 'clearance between films')?.leastMm ?? 0
  if (between < -KEPT_MM) return 2 * BROKEN - between * BROKEN
  if (worst.shortMm > KEPT_MM) return BROKEN * (1 + worst.shortMm)
  const light = lightOnMarks(problem, placed)
  const percent = light === null ? 0 : 100 * (light.most / light.least - 1)
  return (
    WEIGHS.lightPerPercent * percent +
    WEIGHS.offCentre * Math.hypot(offCentreMm.xMm, offCentreMm.yMm) +
    worst.shortMm
  )
}

type Laid = readonly PlacedFilm[]

/** Arrangements looked at in all, and from one start. */
const MOST_LOOKS = 6000
const STARTS = 4
/** A film is moved by so much, from and to. */
const STEP_MM = { first: 64, least: 0.05 }

/**
 * An arrangement that is nearer to what is wished, or the same: from where films lie, from their
 * mirror images, with films changed about, and for one film from places all over the frame. No
 * claim that it is the best.
 *
 * @param laid one for each film of the problem, in its order
 */
export function wishedBest(
  problem: PlacementProblem,
  laid: Laid,
  mostLooks: number = MOST_LOOKS,
): Laid {
  const worth = (each: Laid): number => wishedFor(problem, each)
  const starts = startsFrom(problem, laid)
    .map((each) => ({ laid: each, worth: worth(each) }))
    .sort((a, b) => a.worth - b.worth)
    .slice(0, STARTS)
  const drawn = numbersFrom(SEED)
  let best = { laid, worth: worth(laid) }
  for (const start of starts) {
    let now = start
    let looks = 0
    for (let step = STEP_MM.first; step > STEP_MM.least && looks < mostLooks / STARTS; ) {
      let moved = false
      for (const tried of movesFrom(now.laid, { step, drawn })) {
        looks += 1
        const value = worth(tried)
        if (value >= now.worth - 1e-9) continue
        now = { laid: tried, worth: value }
        moved = true
      }
      if (!moved) step /= 2
    }
    if (now.worth < best.worth - 1e-6) best = now
  }
  return best.laid
}

const FRAMES_TRIED = 5

/**
 * A smaller frame of the same proportion in which outlines can be laid, where rectangles cannot: a
 * few are tried. No claim that it is the smallest.
 *
 * @param share of the frame, in which films lie as `laid`
 */
export function smallerFrame(
  problem: PlacementProblem,
  { share, laid }: Readonly<{ share: number; laid: Laid }>,
): number {
  const { light: _, ...dark } = problem
  let [less, enough, films] = [0.8 * share, share, laid]
  for (let tried = 0; tried < FRAMES_TRIED; tried++) {
    const value = tried === 0 ? 0.98 * share : (less + enough) / 2
    const frame = {
      insideWidthMm: problem.frame.insideWidthMm * value,
      insideHeightMm: problem.frame.insideHeightMm * value,
    }
    const found = wishedBest({ ...dark, frame }, films, MOST_LOOKS / 3)
    if (checkPlaced({ ...dark, frame }, found).verdict === 'fits') {
      enough = value
      films = found
    } else if (tried === 0) return share
    else less = value
  }
  return enough
}

const SEED = 48_271

/** Each film and all of them by a step along both axes and across, and all by a little each at random. */
function movesFrom(
  laid: Laid,
  { step, drawn }: Readonly<{ step: number; drawn: () => number }>,
): readonly Laid[] {
  const ways = [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
    [0.7, 0.7],
    [0.7, -0.7],
    [-0.7, 0.7],
    [-0.7, -0.7],
  ] as const
  const by = (film: PlacedFilm, x: number, y: number): PlacedFilm => ({
    ...film,
    xMm: film.xMm + step * x,
    yMm: film.yMm + step * y,
  })
  const together = ways.map(([x, y]) => laid.map((film) => by(film, x, y)))
  if (laid.length === 1) return together
  return [
    ...together,
    ...laid.flatMap((_, at) =>
      ways.map(([x, y]) => laid.map((film, index) => (index === at ? by(film, x, y) : film))),
    ),
    ...ways.map(() => laid.map((film) => by(film, 2 * drawn() - 1, 2 * drawn() - 1))),
  ]
}

/** One film from a grid of places; several mirrored, and each two with their middles changed about. */
function startsFrom(problem: PlacementProblem, laid: Laid): readonly Laid[] {
  const { frame, films } = problem
  const { insideWidthMm, insideHeightMm } = frame
  const sides = laid.map(({ turned }, at) => {
    const { widthMm, heightMm } = films[at] ?? { widthMm: 0, heightMm: 0 }
    return turned ? { wide: heightMm, high: widthMm } : { wide: widthMm, high: heightMm }
  })
  const mirrored = (isAcross: boolean, isDown: boolean): Laid =>
    laid.map((film, at) => {
      const { wide, high } = sides[at] ?? { wide: 0, high: 0 }
      return {
        ...film,
        xMm: isAcross ? insideWidthMm - film.xMm - wide : film.xMm,
        yMm: isDown ? insideHeightMm - film.yMm - high : film.yMm,
      }
    })
  const mirrors = [mirrored(true, false), mirrored(false, true), mirrored(true, true)]
  const [only] = laid
  const [size] = sides
  if (laid.length === 1 && only !== undefined && size !== undefined) {
    const shares = Array.from({ length: GRID + 1 }, (_, at) => at / GRID)
    const grid = shares.flatMap((x) =>
      shares.map((y) => [
        {
          ...only,
          xMm: x * (insideWidthMm - size.wide),
          yMm: y * (insideHeightMm - size.high),
        },
      ]),
    )
    return [laid, ...mirrors, ...grid]
  }
  const changed = laid.flatMap((a, one) =>
    laid.slice(one + 1).map((b, further) => {
      const other = one + 1 + further
      const [p, q] = [sides[one] ?? { wide: 0, high: 0 }, sides[other] ?? { wide: 0, high: 0 }]
      const x = b.xMm + q.wide / 2 - a.xMm - p.wide / 2
      const y = b.yMm + q.high / 2 - a.yMm - p.high / 2
      return laid.map((film, at) => {
        if (at === one) return { ...film, xMm: film.xMm + x, yMm: film.yMm + y }
        return at === other ? { ...film, xMm: film.xMm - x, yMm: film.yMm - y } : film
      })
    }),
  )
  return [laid, ...mirrors, ...(films.length > MOST_CHANGED ? [] : changed)]
}

const GRID = 12
const MOST_CHANGED = 8

/** Numbers from 0 to 1, the same each time. */
function numbersFrom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}
