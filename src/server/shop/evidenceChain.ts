import { createHash } from 'node:crypto'
import type { Evidence } from '../../core/calibration/belief/evidence.ts'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import type { ShopFacts } from '../../core/calibration/belief/state.ts'

/** A day of evidence; its key names it with all the evidence before it. */
export type Link = Readonly<{ day: number | null; readings: readonly Evidence[]; key: string }>

/** The days of all evidence, oldest first; what has no date comes before them. */
export type Chain = Readonly<{
  links: readonly Link[]
  key: string
  /** The key before any evidence. */
  start: string
}>

/**
 * The evidence day by day. Two chains agree up to a day when they have one key there: whatever was
 * struck out, taken down late or put right, changes the keys from its day on and none before.
 *
 * @param way names the way of reckoning: another one, other keys
 * @param before an older chain: as far as its evidence is the same objects, its links are taken over
 */
export function evidenceChain(
  evidence: readonly Kept[],
  {
    shop,
    way = '',
    before,
  }: Readonly<{ shop: ShopFacts; way?: string; before?: Chain | undefined }>,
): Chain {
  const start = keyOf(way, shop)
  let known = before?.start === start ? before.links : []
  let key = start
  const links = byDay(evidence).map(([day, readings], at): Link => {
    const old = known[at]
    if (old !== undefined && old.day === day && isSame(old.readings, readings)) {
      key = old.key
      return old
    }
    known = []
    key = keyOf(key, readings)
    return { day, readings, key }
  })
  return { links, key, start }
}

type Day = readonly [day: number | null, readings: readonly Evidence[]]

function byDay(evidence: readonly Kept[]): readonly Day[] {
  const days = new Map<number | null, Evidence[]>()
  for (const each of evidence) {
    if (each.struckOut === true) continue
    const day = each.day ?? null
    const sameDay = days.get(day)
    if (sameDay === undefined) days.set(day, [each])
    else sameDay.push(each)
  }
  return [...days].sort(
    ([a], [b]) => (a ?? Number.NEGATIVE_INFINITY) - (b ?? Number.NEGATIVE_INFINITY),
  )
}

function isSame(old: readonly Evidence[], now: readonly Evidence[]): boolean {
  return old.length === now.length && old.every((each, at) => each === now[at])
}

function keyOf(before: string, what: unknown): string {
  return createHash('sha256').update(before).update(JSON.stringify(what)).digest('base64url')
}
