import type { Lab } from '../../core/colour/space.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { nearestInk } from '../../core/separation/nearestInk.ts'
import type { FilmPlan, Ink } from '../../core/separation/plan.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { endsScattered } from '../../raster/films/endsScattered.ts'
import { enlarged } from '../../raster/films/enlarge.ts'
import { decided, lineShares } from '../../raster/films/lineTones.ts'
import { edgesMoved } from '../../raster/films/moveEdges.ts'
import { type Screen, solidScreen } from '../../raster/films/screen.ts'
import { tonesForFilm } from '../../raster/films/toneRange.ts'
import {
  darkened,
  joinedPlates,
  processPlates,
  singleTones,
  type Tones,
  underAll,
} from '../../raster/films/tones.ts'
import { chosenTones } from './chosenTones.ts'
import type { FilmSize } from './filmSize.ts'

/** What is printed by one screen: an ink, or what lies under all of them. */
export type Plate = Readonly<{ name: string; ink: Ink; screen: Screen; isUnderbase: boolean }>

export type Plates = Readonly<{ plates: readonly Plate[]; tones: Tones }>

/** The plates of a plan, first printed first, and their tones at the film's pixels. */
export function platesOf(artwork: Artwork, plan: FilmPlan, size: FilmSize): Plates {
  const plates = plan.inks.map((ink) => plateOf(ink, plan.halftone, size))
  const tones = plateTones(artwork, plan, size)
  if (plan.underbase === null) return { plates, tones }
  const { name, lab } = plan.underbase
  const ink: Ink = { name, lab, opacity: UNDERBASE_OPACITY, angleDeg: null }
  return {
    plates: [{ ...plateOf(ink, plan.halftone, size), isUnderbase: true }, ...plates],
    tones,
  }
}

/**
 * The tones of all plates, first printed first.
 *
 * @param soft flat colours keep the mixed tones of their smoothed edges: for looking from afar
 */
export function plateTones(
  artwork: Artwork,
  plan: FilmPlan,
  size: Pick<FilmSize, 'widthPx' | 'heightPx' | 'pixelUm'>,
  { soft = false }: Readonly<{ soft?: boolean }> = {},
): Tones {
  const reachPx = plan.inks.map(({ edgeUm = plan.edgeUm }) => edgeUm / size.pixelUm)
  const inks = (): Tones => edgesMoved(inkTones(artwork, plan, { ...size, soft }), { reachPx })
  if (plan.underbase === null) return inks()
  const choked = { reachPx: -plan.underbase.chokeUm / size.pixelUm }
  return joinedPlates(edgesMoved(underAll(inks()), choked), inks())
}

/** The screen of one plate, first printed first: for whoever wants no other. */
export function plateScreen(
  { inks, halftone, underbase }: FilmPlan,
  plate: number,
  { pixelUm }: Pick<FilmSize, 'pixelUm'>,
): Screen {
  const at = underbase === null ? plate : plate - 1
  const ink = inks[at]
  if (ink === undefined && at >= 0) throw new RangeError(`plate: expected less than ${inks.length}`)
  return screenFor(ink ?? { angleDeg: null }, halftone, pixelUm)
}

function plateOf(ink: Ink, halftone: Halftone | null, { pixelUm }: FilmSize): Plate {
  const screen = screenFor(ink, halftone, pixelUm)
  return { name: ink.name, ink, screen, isUnderbase: false }
}

function screenFor(
  { angleDeg, tones }: Pick<Ink, 'angleDeg' | 'tones'>,
  halftone: Halftone | null,
  pixelUm: number,
): Screen {
  if (halftone === null) return solidScreen()
  const isTurned = halftone.kind === 'dot' && angleDeg !== null
  const turned = isTurned ? { ...halftone, angleDeg } : halftone
  return endsScattered(turned, { pixelUm, tones: tones ?? null })
}

type Looked = Pick<FilmSize, 'widthPx' | 'heightPx'> & Readonly<{ soft: boolean }>

/** What each ink prints at the film's pixels, before edges move. */
function inkTones(artwork: Artwork, plan: FilmPlan, size: Looked): Tones {
  const passing = (artwork.passing ?? []).map(({ plate, grey }) => ({
    plate,
    tones: enlarged(singleTones(grey), size),
  }))
  const all = passing.reduce(darkened, partedTones(artwork, plan, size))
  return tonesForFilm(
    all,
    plan.inks.map(({ tones = null, printed = null }) => ({ tones, printed })),
  )
}

function partedTones(artwork: Artwork, plan: FilmPlan, size: Looked): Tones {
  switch (plan.mode) {
    case 'single':
      return enlarged(singleTones(artwork), size)
    case 'process':
      return enlarged(processPlates(artwork), size)
    case 'line': {
      const nearest = nearestInk(plan.inks.map(({ lab, takes }) => takes ?? [lab ?? NO_LAB]))
      const shares = enlarged(lineShares(artwork, { inks: plan.inks.length, nearest }), size)
      return size.soft ? shares : decided(shares)
    }
    case 'spot':
      return enlarged(chosenTones(artwork, plan, size), size)
  }
}

/** An underbase is there to hide what lies under it. Judged. */
export const UNDERBASE_OPACITY = 0.9

const NO_LAB: Lab = [0, 0, 0]
