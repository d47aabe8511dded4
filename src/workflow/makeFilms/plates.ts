import type { Lab } from '../../core/colour/space.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { nearestInk } from '../../core/separation/nearestInk.ts'
import type { FilmPlan, Ink } from '../../core/separation/plan.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { endsScattered } from '../../raster/films/endsScattered.ts'
import { enlarged } from '../../raster/films/enlarge.ts'
import { decided, lineShares } from '../../raster/films/lineTones.ts'
import { edgesMoved } from '../../raster/films/moveEdges.ts'
import { type Screen, solidScreen, tableFor } from '../../raster/films/screen.ts'
import {
  type ToneChange,
  tableAsDrawn,
  tonesAsDrawn,
  tonesHeld,
} from '../../raster/films/toneRange.ts'
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

/** Plates, first printed first, and their tones at the film's pixels, as each one's screen draws them. */
export type Plates = Readonly<{ plates: readonly Plate[]; tones: Tones }>

type PixelSize = Pick<FilmSize, 'widthPx' | 'heightPx' | 'pixelUm'>

export function platesOf(artwork: Artwork, plan: FilmPlan, size: PixelSize): Plates {
  const { inks, halftone, underbase } = plan
  const plates = inks.map((ink) => {
    const screen = screenFor(ink, halftone, size.pixelUm)
    return { name: ink.name, ink, screen, isUnderbase: false }
  })
  const tones = plateTones(artwork, plan, size, { isDrawn: true })
  if (underbase === null) return { plates, tones }
  const { name, lab } = underbase
  const ink: Ink = { name, lab, opacity: UNDERBASE_OPACITY, angleDeg: null }
  const screen = screenFor(ink, halftone, size.pixelUm)
  return { plates: [{ name, ink, screen, isUnderbase: true }, ...plates], tones }
}

/**
 * The tones of all plates, first printed first.
 *
 * @param soft flat colours keep the mixed tones of their smoothed edges: for looking from afar
 * @param isDrawn as the plates' screens draw them, not as films and prints have them
 * @param parted what `partedInks` made of this artwork and plan, where that is known
 */
export function plateTones(
  artwork: Artwork,
  plan: FilmPlan,
  size: PixelSize,
  {
    soft = false,
    isDrawn = false,
    parted = null,
  }: Readonly<{ soft?: boolean; isDrawn?: boolean; parted?: Tones | null }> = {},
): Tones {
  const table = isDrawn ? tableFor(plan.halftone) : null
  const inks = inksMoved(artwork, plan, { ...size, soft, table, parted })
  if (plan.underbase === null) return inks
  const under = underInks(artwork, plan, { ...size, soft, table: null, parted })
  return joinedPlates(tonesAsDrawn(under, [{ tones: null, printed: null, table }]), inks)
}

type Looked = PixelSize &
  Readonly<{ soft: boolean; table: Uint16Array | null; parted: Tones | null }>

function inksMoved(artwork: Artwork, plan: FilmPlan, looked: Looked): Tones {
  const reachPx = plan.inks.map(({ edgeUm = plan.edgeUm }) => edgeUm / looked.pixelUm)
  return edgesMoved(inkTones(artwork, plan, looked), { reachPx })
}

/** What lies under all inks, choked. */
function underInks(artwork: Artwork, plan: FilmPlan, looked: Looked): Tones {
  const chokeUm = plan.underbase?.chokeUm ?? 0
  const inks = inksMoved(artwork, plan, looked)
  return edgesMoved(underAll(inks), { reachPx: -chokeUm / looked.pixelUm })
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

/** What each ink prints at the film's pixels, before edges move. */
function inkTones(artwork: Artwork, plan: FilmPlan, looked: Looked): Tones {
  const { table } = looked
  const changes = plan.inks.map(({ tones = null, printed = null }) => ({ tones, printed, table }))
  const tables = changes.map(tableAsDrawn)
  const passing = (artwork.passing ?? []).map(({ plate, grey }) => ({
    plate,
    tones: enlarged(singleTones(grey, tables[plate] ?? null), looked),
  }))
  const all = passing.reduce(darkened, partedTones(artwork, plan, { ...looked, changes }))
  return tonesHeld(all, changes)
}

/** Flat colours are nothing or solid, which no curve moves. */
function partedTones(
  artwork: Artwork,
  plan: FilmPlan,
  { changes, ...looked }: Looked & Readonly<{ changes: readonly ToneChange[] }>,
): Tones {
  if (plan.mode === 'single') {
    return enlarged(singleTones(artwork, changes.map(tableAsDrawn)[0] ?? null), looked)
  }
  const parted = looked.parted ?? partedInks(artwork, plan, looked)
  if (plan.mode !== 'line') return enlarged(tonesAsDrawn(parted, changes), looked)
  const shares = enlarged(parted, looked)
  return looked.soft ? shares : decided(shares)
}

/** Parts artwork into inks; what it looks up is worked out once for all that it parts. */
export type InkParter = (artwork: Artwork) => Tones

/**
 * Parts artwork into inks at its own pixels, before curves, edges and what passes through: of the
 * plan its mode, limits, and the colours and opacity of its inks count.
 *
 * @param soft for looking from afar: soon worked out
 */
export function inkParter(plan: FilmPlan, { soft }: Readonly<{ soft: boolean }>): InkParter {
  const { mode, inks, limits } = plan
  switch (mode) {
    case 'single':
      return (artwork) => singleTones(artwork)
    case 'process':
      return (artwork) => processPlates(artwork, limits?.coverage ?? null)
    case 'line': {
      const nearest = nearestInk(
        inks.map(({ lab, takes }) => takes ?? [lab ?? NO_LAB]),
        { soft },
      )
      return (artwork) => lineShares(artwork, { inks: inks.length, nearest })
    }
    case 'spot':
      return chosenTones(plan, { soft })
  }
}

export function partedInks(
  artwork: Artwork,
  plan: FilmPlan,
  { soft }: Readonly<{ soft: boolean }>,
): Tones {
  return inkParter(plan, { soft })(artwork)
}

/** An underbase is there to hide what lies under it. Judged. */
export const UNDERBASE_OPACITY = 0.9

const NO_LAB: Lab = [0, 0, 0]
