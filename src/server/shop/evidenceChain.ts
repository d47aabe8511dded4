import { createHash } from 'node:crypto'
import type { Evidence } from '../../core/calibration/belief/evidence.ts'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import type { ShopFacts } from '../../core/calibration/belief/state.ts'

/** A day of evidence; its key names it with all the evidence before it. */
export type Link = Readonly<{ day: number | null; readings: readonly Evidence[]; key: string }>

/** The days of all evidence, oldest first; what has no date comes before them. */
export type Chain = Readonly<{ links: readonly Link[]; key: string }>

/**
 * The evidence day by day. Two chains agree up to a day when they have one key there: whatever was
 * struck out, taken down late or put right, changes the keys from its day on and none before.
 */
export function evidenceChain(evidence: readonly Kept[], shop: ShopFacts): Chain {
  const byDay = new Map<number | null, Evidence[]>()
  for (const each of evidence) {
    if (each.struckOut === true) continue
    const day = each.day ?? null
    const sameDay = byDay.get(day)
    if (sameDay === undefined) byDay.set(day, [each])
    else sameDay.push(each)
  }
  let key = keyOf('', shop)
  const links = [...byDay]
    .sort(([a], [b]) => (a ?? Number.NEGATIVE_INFINITY) - (b ?? Number.NEGATIVE_INFINITY))
    .map(([day, readings]) => {
      key = keyOf(key, readings)
      return { day, readings, key }
    })
  return { links, key }
}

function keyOf(before: string, what: unknown): string {
  return createHash('sha256').update(before).update(JSON.stringify(what)).digest('base64url')
}
