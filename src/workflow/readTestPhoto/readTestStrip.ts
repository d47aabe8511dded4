import { normalShare } from '../../core/calibration/belief/normal.ts'
import type { Point } from '../../core/inspection/homography.ts'
import type { Film } from '../../raster/film.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import type { FilmLayout } from '../papers/testFilmLayout.ts'
import { type BandSeen, bandsSeen, type MarksLookedAt } from './stripBands.ts'
import { stripLight } from './stripLight.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** The five words for how a band came out, in the order in which they take precedence. */
const GRADES = ['washed off', 'filled', 'filling', 'soft', 'good'] as const
export type StripGrade = (typeof GRADES)[number]

export type BandTold = Readonly<{
  grade: StripGrade
  /** The chance of this grade, and the next likeliest with its own. */
  chance: number
  next: Readonly<{ grade: StripGrade; chance: number }>
  /** How much of the stencil is left on the ground, 0 … 1. */
  left: number
  /** How far its thinnest judged marks are open, 0 … 1; null where the ground is gone. */
  open: number | null
}>

/** What a photo tells of a washed-out strip, for somebody to nod at. Largest dose first. */
export type TestStrip = Readonly<{
  kind: 'strip'
  bands: readonly BandTold[]
  warnings: readonly string[]
}>

/** Ground is gone under this share of the stencil, and sound above that one: a and s of the belief. */
const GONE = { share: 0.25, sd: 0.09 }
const SOUND = { share: 0.73, sd: 0.14 }
/** What is seen of a mark is off by so much (judged). */
const OPEN_SD = 0.1
/** Ground may thicken and marks may open with less dose by no more than this. */
const MOST_TURNED = { ground: 0.25, marks: 0.45 }
/** Ground that still thickens so much at the largest dose may not be hard through anywhere. */
const STILL_RISES = 0.12
const NO_STROKE = 0.35

/**
 * A grade for each band of a washed-out test strip, from a photo of the backlit screen.
 *
 * @param photo linear light, upright
 * @param asked film and layout: of the strip as it was printed; marks: which of them are judged;
 *   corners: the four outer points of the bands in photo pixels, or looked for
 * @throws Failure 'wrong input' in one sentence where the photo cannot tell
 * @source dill1975 (through a finished stencil), sound-dose, grade-likelihood
 */
export async function readTestStrip(
  photo: PhotoLight,
  {
    film,
    layout,
    marks,
    corners,
  }: Readonly<{
    film: Film
    layout: FilmLayout
    marks: MarksLookedAt
    corners?: readonly Point[]
  }>,
): Promise<TestStrip> {
  const asked = corners === undefined ? { layout } : { layout, corners }
  const strip = await stripLight(photo, film, asked)
  const seen = bandsSeen(strip, { layout, marks })
  expectOrder(seen)
  if (marks !== 'printed' && seen.every(({ open }) => (open[0]?.open ?? 0) < NO_STROKE)) {
    throw wrongPhoto(
      'No stroke is open in this column in any band; choose another, or tell it by eye.',
    )
  }
  const [first, second] = seen
  const rises = (first?.ground ?? 1) - (second?.ground ?? 1) > STILL_RISES
  return {
    kind: 'strip',
    bands: seen.map(graded),
    warnings: [
      SLIME,
      ...(rises
        ? ['The ground still gets thicker at the largest dose: perhaps no band is hard through.']
        : []),
    ],
  }
}

const SLIME =
  'A photo sees how thick the stencil is, not slime: feel the squeegee side of the bands called soft or good.'

function graded({ ground, open }: BandSeen): BandTold {
  const gone = normalShare((GONE.share - ground) / GONE.sd)
  const sound = normalShare((ground - SOUND.share) / SOUND.sd)
  const soft = Math.max(0, 1 - gone - sound)
  const held = Math.max(1e-9, soft + sound)
  const over = open.map((mark) => (mark.open - mark.wanted) / OPEN_SD)
  const opens = over.length === 0 ? 1 : normalShare(Math.min(...over))
  const filled = over.length === 0 ? 0 : (1 - opens) * normalShare(-middleOf(over))
  const filling = 1 - opens - filled
  const chances: Readonly<Record<StripGrade, number>> = {
    'washed off': gone,
    filled: (1 - gone) * filled,
    filling: (1 - gone) * filling,
    soft: ((1 - gone) * opens * soft) / held,
    good: ((1 - gone) * opens * sound) / held,
  }
  const [best = 'good', next = 'soft'] = GRADES.toSorted((a, b) => chances[b] - chances[a])
  return {
    grade: best,
    chance: rounded(chances[best]),
    next: { grade: next, chance: rounded(chances[next]) },
    left: rounded(Math.min(1, ground)),
    open: open[0] === undefined ? null : rounded(Math.min(1, open[0].open)),
  }
}

function middleOf(list: readonly number[]): number {
  return list.toSorted((a, b) => a - b)[list.length >> 1] ?? 1
}

/** With less dose the ground gets thinner and marks open: anything else is no strip, or a reflection. */
function expectOrder(bands: readonly BandSeen[]): void {
  const isTurned = bands.some(({ ground, open }, at) =>
    bands
      .slice(at + 1)
      .some(
        (less) =>
          less.ground > ground + MOST_TURNED.ground ||
          (open.length > 0 &&
            less.open.length > 0 &&
            usualOpen(less) < usualOpen({ ground, open }) - MOST_TURNED.marks),
      ),
  )
  if (!isTurned) return
  throw wrongPhoto(
    'The bands do not follow their doses; take the photo without reflections, and check how many bands the strip has.',
  )
}

function usualOpen({ open }: BandSeen): number {
  return middleOf(open.map((mark) => mark.open))
}

function rounded(share: number): number {
  return Math.round(100 * share) / 100
}
