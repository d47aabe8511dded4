import type { FilmAsked, ScreenAsked } from './asked.ts'
import { type Detail, type Holds, holdsOf, type Says } from './holds.ts'
import { type Stands, standsAt } from './stands.ts'

/** One screen, what it makes of the film, and how it stands. */
export type ScreenRanked = Readonly<{ id: string; holds: Holds; stands: Stands }>

const RANKS: readonly Says[] = ['yes', 'in doubt', 'no']
const WHEN: readonly Stands['when'][] = ['now', 'later', 'not']

/**
 * The shop's screens for a film, the best first: those that can be had at all; of them those that
 * hold the film, then those in doubt; of them those that stand ready; then those that leave most of
 * the marks standing, in tenths; then as the ink should lie, and where that is no matter the coarsest,
 * which lets ink through most easily (common practice, no source); then by room to the frame; then as
 * they were given.
 */
export function rankScreens(
  screens: readonly ScreenAsked[],
  { film, nowMs }: Readonly<{ film: FilmAsked; nowMs: number }>,
): readonly ScreenRanked[] {
  const ranked = screens.map((screen) => {
    const holds = holdsOf(screen, film)
    const stands = standsAt(screen, nowMs)
    const inkUm = holds.deposit.solidUm
    const key = [
      stands.when === 'not' ? 1 : 0,
      RANKS.indexOf(fitOf({ ...holds, detail: knownDetail(holds.detail) })),
      WHEN.indexOf(stands.when),
      holds.detail.says === 'yes' ? -10 : -Math.round(10 * (holds.detail.heldShare ?? 0)),
      film.ink === 'thin' ? inkUm : film.ink === 'thick' ? -inkUm : screen.weave.threadsPerCm,
      RANKS.indexOf(holds.room?.says ?? 'yes'),
    ]
    return { key, ranked: { id: screen.id, holds, stands } }
  })
  return ranked.sort((a, b) => order(a.key, b.key)).map((each) => each.ranked)
}

/** Whether a screen holds the film. Little room to the frame is no doubt of the fabric. */
export function fitOf({ detail, tone, room }: Holds): Says {
  const says = [detail.says, tone?.says ?? 'yes', room?.says === 'no' ? 'no' : 'yes'] as const
  return RANKS[Math.max(...says.map((each) => RANKS.indexOf(each)))] ?? 'no'
}

/** Where nobody knows the widths no screen is worse off for it. */
function knownDetail(detail: Detail): Detail {
  return detail.heldShare === null ? { ...detail, says: 'yes' } : detail
}

function order(a: readonly number[], b: readonly number[]): number {
  for (const [at, value] of a.entries()) {
    const off = value - (b[at] ?? 0)
    if (off !== 0) return off
  }
  return 0
}
