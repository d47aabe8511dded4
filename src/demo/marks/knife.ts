import { distanceMm, type Point } from '../curve.ts'
import type { Piece } from '../polygons.ts'
import type { Random } from '../random.ts'
import { type Cut, peeled, stays } from './cut.ts'

/** How surely the hand cuts: how far corners stray, how often a cut runs past its corner. */
export type Hand = Readonly<{ strayMm: number; overcutShare: number; random: Random }>

/** What a knife makes of these outlines: straight cuts between corners that are a little off. */
export function cutRound(piece: Piece, hand: Hand): Piece {
  return piece.map((ring) => ring.map((corner) => strayed(corner, hand)))
}

/** A window: cut round, over-run at some corners, peeled. */
export function peelOut(piece: Piece, hand: Hand): readonly Cut[] {
  const cut = cutRound(piece, hand)
  return [peeled(cut), ...cut.flatMap((ring) => overcuts(ring, hand))]
}

/** What is left standing when all around is peeled: overruns show at its inner corners only. */
export function leave(piece: Piece, hand: Hand): readonly Cut[] {
  const cut = cutRound(piece, hand)
  return [stays(cut), ...cut.flatMap((ring) => overcuts(ring, hand))]
}

function strayed({ xMm, yMm }: Point, { strayMm, random }: Hand): Point {
  return { xMm: xMm + random.around(0, strayMm / 2), yMm: yMm + random.around(0, strayMm / 2) }
}

/** Where the blade ran past a corner: a slit, widest at the corner, not quite open to light. */
function overcuts(ring: readonly Point[], { overcutShare, random }: Hand): readonly Cut[] {
  const out: Cut[] = []
  ring.forEach((corner, at) => {
    const before = ring[(at + ring.length - 1) % ring.length]
    const after = ring[(at + 1) % ring.length]
    for (const from of [before, after]) {
      const cutMm = distanceMm(from, corner)
      const runMm = Math.min(random.between(0.25, 1.3), 0.3 * cutMm)
      const openMm = random.between(0.03, 0.07)
      if (random.share() > overcutShare || runMm < 0.12) continue
      const x = (corner.xMm - from.xMm) / cutMm
      const y = (corner.yMm - from.yMm) / cutMm
      out.push(
        peeled(
          [
            [
              { xMm: corner.xMm - (y * openMm) / 2, yMm: corner.yMm + (x * openMm) / 2 },
              { xMm: corner.xMm + (y * openMm) / 2, yMm: corner.yMm - (x * openMm) / 2 },
              { xMm: corner.xMm + x * runMm, yMm: corner.yMm + y * runMm },
            ],
          ],
          0.6,
        ),
      )
    }
  })
  return out
}
