import type { Link } from './evidenceChain.ts'

/** The evenings of so many days are all kept in memory; of those before, one in so many days. */
const EVERY_DAY = 190
const ONE_IN_DAYS = 30
/** On the shelf it is one in thirty days of the newer ones, and of the older ones one in so many. */
const OLD_ON_SHELF_DAYS = 120

/** A day that has a date. */
export type DatedLink = Link & Readonly<{ day: number }>

/** Keys of the days whose evenings are kept in memory. */
export function keptEvenings(links: readonly Link[]): ReadonlySet<string> {
  return new Set(spaced(links, { recentDays: 0, oldDays: ONE_IN_DAYS }).map(({ key }) => key))
}

/**
 * The days whose evenings outlast a stop: the newest and the one before it, for the newest is not
 * over yet, and enough to begin anywhere near.
 */
export function shelvedEvenings(links: readonly Link[]): readonly DatedLink[] {
  const kept = spaced(links, { recentDays: ONE_IN_DAYS, oldDays: OLD_ON_SHELF_DAYS })
  return [...new Set([...kept, ...links.slice(-2).filter(isDated)])]
}

function spaced(
  links: readonly Link[],
  { recentDays, oldDays }: Readonly<{ recentDays: number; oldDays: number }>,
): readonly DatedLink[] {
  const first = (links.at(-1)?.day ?? 0) - EVERY_DAY
  let last = Number.NEGATIVE_INFINITY
  return links.filter((link): link is DatedLink => {
    if (!isDated(link) || link.day < last + (link.day >= first ? recentDays : oldDays)) return false
    last = link.day
    return true
  })
}

function isDated(link: Link): link is DatedLink {
  return link.day !== null
}
