import type { Lab } from '../../core/colour/space.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { nearestInk } from '../../core/separation/nearestInk.ts'
import type { FilmPlan, Ink } from '../../core/separation/plan.ts'
import { spotTable } from '../../core/separation/spotTable.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { enlarged } from '../../raster/films/enlarge.ts'
import { decided, lineShares } from '../../raster/films/lineTones.ts'
import { edgesMoved } from '../../raster/films/moveEdges.ts'
import { type Screen, screenOf, solidScreen } from '../../raster/films/screen.ts'
import {
  darkened,
  joinedPlates,
  processPlates,
  singleTones,
  spotPlates,
  type Tones,
  underAll,
} from '../../raster/films/tones.ts'
import type { FilmSize } from './filmSize.ts'

/** What is printed by one screen: an ink, or what lies under all of them. */
export type Plate = Readonly<{ name: string; ink: Ink; screen: Screen; isUnderbase: boolean }>

export type Plates = Readonly<{ plates: readonly Plate[]; tones: Tones }>

/** The plates of a plan, first printed first, and their tones at the film's pixels. */
export function platesOf(artwork: Artwork, plan: FilmPlan, size: FilmSize): Plates {
  const inks = enlargedTones(artwork, plan, size)
  const reachPx = plan.edgeUm / size.pixelUm
  const moved = edgesMoved(inks, { reachPx })
  const plates = plan.inks.map((ink) => plateOf(ink, plan.halftone, size))
  if (plan.underbase === null) return { plates, tones: moved }
  const { name, lab, chokeUm } = plan.underbase
  const ink: Ink = { name, lab, opacity: 1, angleDeg: null }
  const under = edgesMoved(underAll(moved), { reachPx: -chokeUm / size.pixelUm })
  return {
    plates: [{ ...plateOf(ink, plan.halftone, size), isUnderbase: true }, ...plates],
    tones: joinedPlates(under, edgesMoved(enlargedTones(artwork, plan, size), { reachPx })),
  }
}

function plateOf(ink: Ink, halftone: Halftone | null, { pixelUm }: FilmSize): Plate {
  const turned =
    halftone?.kind === 'dot' && ink.angleDeg !== null
      ? { ...halftone, angleDeg: ink.angleDeg }
      : halftone
  const screen = turned === null ? solidScreen() : screenOf(turned, { pixelUm })
  return { name: ink.name, ink, screen, isUnderbase: false }
}

function enlargedTones(artwork: Artwork, plan: FilmPlan, size: FilmSize): Tones {
  const passing = (artwork.passing ?? []).map(({ plate, grey }) => ({
    plate,
    tones: enlarged(singleTones(grey), size),
  }))
  return passing.reduce(darkened, partedTones(artwork, plan, size))
}

function partedTones(artwork: Artwork, plan: FilmPlan, size: FilmSize): Tones {
  switch (plan.mode) {
    case 'single':
      return enlarged(singleTones(artwork), size)
    case 'process':
      return enlarged(processPlates(artwork), size)
    case 'line': {
      const nearest = nearestInk(plan.inks.map(({ lab }) => lab ?? NO_LAB))
      return decided(enlarged(lineShares(artwork, { inks: plan.inks.length, nearest }), size))
    }
    case 'spot':
      return enlarged(spotPlates(artwork, spotTable(plan.inks)), size)
  }
}

const NO_LAB: Lab = [0, 0, 0]
