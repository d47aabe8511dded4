import { homographyThrough } from '../../core/inspection/homography.ts'
import { type Alignment, type AlignOptions, align, type LightOptions, lightAt } from './align.ts'
import { type FilmCells, filmCells } from './filmCells.ts'
import { type Grid, gridHalvings } from './grid.ts'
import type { LightField } from './lightField.ts'
import { blur } from './plane.ts'
import { magnification, type Pose, photoPoint, straightPose } from './pose.ts'
import { poseGuesses } from './search.ts'

/** Guesses that are looked at more closely, and those that are followed further. */
const GUESSES = 40
const FOLLOWED = 6

/** Most film cells that take part; edges of marks come first. */
type Stage = AlignOptions & Readonly<{ mostCells: number }>

const FIRST: Stage = {
  freedom: 'similarity',
  degree: 2,
  rounds: 4,
  mostCells: 600,
  trustedShare: 0.4,
}
const TILTED: Stage = {
  freedom: 'homography',
  degree: 2,
  rounds: 8,
  mostCells: 2500,
  trustedShare: 0.4,
}

/** Longer sides of the film, smallest first, and what may move there. */
const STAGES: readonly (Stage & Readonly<{ sidePx: number }>)[] = [
  { sidePx: 32, ...TILTED, mostCells: 1000 },
  { sidePx: 64, ...TILTED, rounds: 6, mostCells: 1800 },
  { sidePx: 128, ...TILTED, rounds: 6, mostCells: 5000 },
  {
    sidePx: 256,
    ...TILTED,
    degree: 3,
    freedom: 'lens',
    rounds: 4,
    mostCells: 7000,
    trustedShare: 0.25,
  },
  {
    sidePx: 512,
    ...TILTED,
    degree: 3,
    freedom: 'lens',
    rounds: 3,
    mostCells: 8000,
    trustedShare: 0.15,
  },
  {
    sidePx: 1024,
    ...TILTED,
    degree: 3,
    freedom: 'lens',
    rounds: 2,
    mostCells: 10000,
    trustedShare: 0.15,
  },
]

/** A fit that falls so far while the film grows sits in a wrong hollow. */
const STUCK_BELOW = 0.93
/** Whoever fits no better than this is tried otherwise before it is believed (judged). */
const POOR_BELOW = 0.75
const SETTLED_FROM = 0.8
/** How far a corner is pulled, in halves of the photo's longer side. */
const SHAKE = 0.05

export type LitAlignment = Alignment & Readonly<{ light: LightField }>

export type Registration = Readonly<{
  best: LitAlignment
  /** How well the best that lies otherwise (turn, way round) fits. */
  nextFit: number
  /** False where the likeness is there but falls apart when looked at closely. */
  isSettled: boolean
}>

/** Light is read where hatching is no more than a grey: sharpness does not count there. */
const LIGHT_SIDE_PX = 160
const LIGHT_CELLS = 20000
const LIGHT: LightOptions = { degree: 3, trustedShare: 0.08 }

const SOFT_PX = 0.45

/**
 * Finds the film in the photo: all guesses by likeness when very small, then the best ones ever
 * larger.
 *
 * @param film shares of marks, its longer side about 1024; photo: linear light, 1024 or more
 * @param guesses where it may lie, when that is known
 * @returns null where nothing at all fits
 */
export function register(film: Grid, photo: Grid, guesses?: readonly Pose[]): Registration | null {
  const films = gridHalvings(film, 24).map(softened)
  const photos = gridHalvings(photo, 24)
  const cellsFor = keptCells(films)
  const photoFor = (pose: Pose, { step }: FilmCells): Grid =>
    nearest(photos, (grid) => grid.step / (step * magnification(pose)))
  const at = (pose: Pose, sidePx: number, stage: Stage): Alignment | null => {
    const cells = cellsFor(sidePx, stage.mostCells)
    return align(cells, photoFor(pose, cells), pose, stage)
  }
  const starts = guesses ?? poseGuesses(withSide(films, 96), withSide(photos, 96), GUESSES)
  const firm = guesses !== undefined
  let front = starts.flatMap((pose) => {
    const first = firm ? at(pose, 64, TILTED) : at(pose, 32, FIRST)
    return first === null ? [] : [first]
  })
  front = byFit(front).slice(0, FOLLOWED)
  let nextFit = 0
  let bestFit = 0
  for (const stage of STAGES) {
    const along = (poses: readonly Pose[]): Alignment[] =>
      byFit(
        poses.flatMap((pose) => {
          const next = at(pose, stage.sidePx, stage)
          return next === null ? [] : [next]
        }),
      )
    front = along(front.map(({ pose }) => pose))
    if (front[0] === undefined) return null
    if (stage.sidePx === 256 && front[0].fit < Math.max(STUCK_BELOW * bestFit, POOR_BELOW)) {
      // a lean and a bent lens that undo each other are let go of first
      const level = at(straightPose([...front[0].pose.subarray(0, 6), 0, 0]), 64, FIRST)
      const shaken = shakes(front[0].pose, film).flatMap((pose) => at(pose, 64, TILTED) ?? [])
      if (level !== null) front.push(...along([level.pose]))
      const tried = byFit(shaken).slice(0, FOLLOWED)
      front = byFit([...front, ...along(tried.map(({ pose }) => pose))])
    }
    const [best] = front
    const others = front.filter(({ pose }) => !alike(pose, best.pose))
    if (others[0] !== undefined && stage.sidePx <= 128) nextFit = others[0].fit
    const clear = others[0] === undefined || others[0].fit < 0.6 * best.fit
    front = stage.sidePx >= 256 || clear ? [best] : [best, ...others].slice(0, 3)
    bestFit = Math.max(bestFit, best.fit)
  }
  const [best] = front
  const cells = cellsFor(LIGHT_SIDE_PX, LIGHT_CELLS)
  const light = lightAt(cells, photoFor(best.pose, cells), best.pose, LIGHT)
  if (light === null) return null
  return { best: { ...best, light }, nextFit, isSettled: best.fit >= SETTLED_FROM * bestFit }
}

/** The film's cells at a size, each choice made once. */
function keptCells(films: readonly Grid[]): (sidePx: number, most: number) => FilmCells {
  const kept = new Map<string, FilmCells>()
  return (sidePx, most) => {
    const key = `${sidePx} ${most}`
    const known = kept.get(key)
    if (known !== undefined) return known
    const own = nearest(films, (grid) => Math.max(grid.widthPx, grid.heightPx) / sidePx)
    const cells = filmCells(own, most)
    kept.set(key, cells)
    return cells
  }
}

/** The pose with each corner of the film pulled aside, one at a time, four ways. */
function shakes(pose: Pose, film: Grid): readonly Pose[] {
  const [u, v] = [-film.left, -film.top]
  const own = [
    { x: -u, y: -v },
    { x: u, y: -v },
    { x: u, y: v },
    { x: -u, y: v },
  ]
  const seen = own.map(({ x, y }) => photoPoint(pose, { u: x, v: y }))
  const pulls = [
    [SHAKE, SHAKE],
    [SHAKE, -SHAKE],
    [-SHAKE, SHAKE],
    [-SHAKE, -SHAKE],
  ]
  return own.flatMap((_, pulled) =>
    pulls.flatMap(([ds, dt]) => {
      const pairs = own.map((from, at) => {
        const { s, t } = seen[at]
        return { from, to: at === pulled ? { x: s + ds, y: t + dt } : { x: s, y: t } }
      })
      const homography = homographyThrough(pairs)
      return homography === null ? [] : [straightPose(homography)]
    }),
  )
}

/** As soft as a photo that was shrunk and read between its pixels. */
function softened(grid: Grid): Grid {
  const soft = { ...grid, values: Float32Array.from(grid.values) }
  blur(soft, SOFT_PX)
  return soft
}

/** The smallest whose longer side is at least so long. */
function withSide(grids: readonly Grid[], px: number): Grid {
  const large = grids.filter(({ widthPx, heightPx }) => Math.max(widthPx, heightPx) >= px)
  return large.at(-1) ?? grids[0]
}

function nearest(grids: readonly Grid[], ratio: (grid: Grid) => number): Grid {
  const off = (grid: Grid): number => Math.abs(Math.log(ratio(grid)))
  return grids.reduce((best, grid) => (off(grid) < off(best) ? grid : best))
}

function byFit(list: readonly Alignment[]): Alignment[] {
  return [...list].sort((a, b) => b.fit - a.fit)
}

/** The same way of lying, found twice. */
function alike(a: Pose, b: Pose): boolean {
  let sum = 0
  for (let k = 0; k < 6; k += 1) sum += (a[k] - b[k]) ** 2
  return Math.sqrt(sum) < 0.15
}
