import { wetDepositUm } from '../fabric/deposit.ts'
import { type Fabric, fabricGeometry } from '../fabric/geometry.ts'
import { share, um } from '../units/quantity.ts'
import type { FilmAsked, ScreenAsked } from './asked.ts'

export type Says = 'yes' | 'in doubt' | 'no'

/** Nine in ten of the marks are as wide as the finest line: it holds the film. Judged. */
const HOLDS_SHARE = 0.9
/** Fewer than so, and another fabric has to be found. Judged. */
const HARDLY_SHARE = 0.6
/** To the frame on all sides, so that the fabric can give way. Common practice, no source. */
export const USUAL_CLEARANCE_MM = 150
/** A coat as thick as usual where nobody measured it. Judged. */
const USUAL_OVER_MESH_UM = 8

/** Whether a fabric holds a film's finest detail. */
export type Detail = Readonly<{
  about: 'detail'
  says: Says
  finestLineUm: number
  /** Of the marks, as wide as that or wider; null: the film's widths are not known. */
  heldShare: number | null
}>

/**
 * Whether a fabric holds a film's finest detail: no line is finer than a pitch.
 *
 * @source finest-line
 * @limits marks alone; narrow gaps between them are not looked at
 */
function detailOf({ finestLineUm }: Fabric, { widthsUm }: FilmAsked): Detail {
  if (widthsUm === null || widthsUm.length === 0) {
    return { about: 'detail', says: 'in doubt', finestLineUm, heldShare: null }
  }
  const held = widthsUm.filter((widthUm) => widthUm >= finestLineUm).length
  const heldShare = held / widthsUm.length
  const says = heldShare >= HOLDS_SHARE ? 'yes' : heldShare >= HARDLY_SHARE ? 'in doubt' : 'no'
  return { about: 'detail', says, finestLineUm, heldShare }
}

/** Whether a fabric carries a film's halftone. */
export type Tone = Readonly<{
  about: 'tone'
  says: Says
  rulingPerCm: number
  usualPerCm: number
  finestPerCm: number
}>

/** @source ruling-ratios */
function toneOf({ rulingPerCm: limits }: Fabric, { rulingPerCm }: FilmAsked): Tone | null {
  if (rulingPerCm === null) return null
  const { usual, finest } = limits
  const says = rulingPerCm <= usual ? 'yes' : rulingPerCm <= finest ? 'in doubt' : 'no'
  return { about: 'tone', says, rulingPerCm, usualPerCm: usual, finestPerCm: finest }
}

/** The wet film in the middle of a solid, and in a fine line that the coat's edges hold. */
export type Deposit = Readonly<{ about: 'deposit'; solidUm: number; lineUm: number }>

/** @source wet-film */
function depositOf(
  { openAreaShare, thicknessUm }: Fabric,
  { coating }: Pick<ScreenAsked, 'coating'>,
): Deposit {
  const emulsionOverMeshUm = um(coating?.overMeshUm ?? USUAL_OVER_MESH_UM)
  const wet = (edgeShare: number): number =>
    wetDepositUm(
      { openAreaShare, thicknessUm },
      { emulsionOverMeshUm, edgeShare: share(edgeShare) },
    )
  return { about: 'deposit', solidUm: wet(0), lineUm: wet(1) }
}

/** What is left between film and frame on the narrower side, the film turned as suits it. */
export type Room = Readonly<{ about: 'room'; says: Says; clearanceMm: number }>

/** @source placement-rules */
function roomOf({ insideMm }: Pick<ScreenAsked, 'insideMm'>, { sizeMm }: FilmAsked): Room | null {
  if (sizeMm === null) return null
  const least = (across: number, down: number): number =>
    Math.min(insideMm.widthMm - across, insideMm.heightMm - down) / 2
  const { widthMm, heightMm } = sizeMm
  const clearanceMm = Math.max(least(widthMm, heightMm), least(heightMm, widthMm))
  const says = clearanceMm >= USUAL_CLEARANCE_MM ? 'yes' : clearanceMm >= 0 ? 'in doubt' : 'no'
  return { about: 'room', says, clearanceMm }
}

/** What a fabric and a frame make of a film. */
export type Holds = Readonly<{
  detail: Detail
  tone: Tone | null
  deposit: Deposit
  room: Room | null
}>

/** What a screen's fabric, coat and frame make of a film. */
export function holdsOf(screen: ScreenAsked, film: FilmAsked): Holds {
  const fabric = fabricGeometry(screen.weave)
  return {
    detail: detailOf(fabric, film),
    tone: toneOf(fabric, film),
    deposit: depositOf(fabric, screen),
    room: roomOf(screen, film),
  }
}
