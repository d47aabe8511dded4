import type { ScreenIs } from './next.ts'

const DAY_MS = 24 * 3600_000

/** Below this a screen is stretched anew even when it is whole. Judged: makers name their own. */
export const SLACK_NEWTON_PER_CM = 12

/** What decides about a screen on reclaim day; moments in ms. */
export type OwedScreen = Readonly<{
  tag: string
  is: ScreenIs
  owner: string | null
  keptUntilMs: number | null
  goodUntilMs: number | null
  haze: boolean
  tensionNewtonPerCm: number | null
}>

export type ReclaimDay<Screen> = Readonly<{
  /** Who owes which screens, by name; null: nobody's. Longest overdue first. */
  owed: readonly Readonly<{ owner: string | null; screens: readonly Screen[] }>[]
  /** Kept beyond their day, or their coat's, and the days of grace: whoever is here may take them. */
  abandoned: readonly Screen[]
  haze: readonly Screen[]
  /** In the order of stretching: torn ones, then slack ones, the slackest first. */
  restretch: readonly Screen[]
}>

/**
 * What is to be done on reclaim day. Owed is what waits to be reclaimed, what carries a stencil after
 * the day until which it was kept, and what carries a coat that is too old; once the days of grace
 * are over as well it is abandoned and stands in that list alone.
 */
export function reclaimDay<Screen extends OwedScreen>(
  screens: readonly Screen[],
  { onMs, graceDays }: Readonly<{ onMs: number; graceDays: number }>,
): ReclaimDay<Screen> {
  const due = screens.filter((screen) => isOwed(screen, onMs))
  const abandoned = due.filter((screen) => {
    const sinceMs = dueMs(screen)
    return sinceMs !== null && sinceMs + graceDays * DAY_MS < onMs
  })
  const owing = due.filter((screen) => !abandoned.includes(screen)).toSorted(byDay)
  const owners = [...new Set(owing.map(({ owner }) => owner))]
  return {
    owed: owners.map((owner) => ({
      owner,
      screens: owing.filter((screen) => screen.owner === owner),
    })),
    abandoned: abandoned.toSorted(byDay),
    haze: screens.filter(({ haze, is }) => haze && is !== 'torn'),
    restretch: screens
      .filter((screen) => screen.is === 'torn' || isSlack(screen))
      .toSorted((a, b) => stretchOrder(a) - stretchOrder(b)),
  }
}

/** Until when it was kept; where nobody said so, until when its coat is good; null: nobody knows. */
function dueMs({ is, keptUntilMs, goodUntilMs }: OwedScreen): number | null {
  return keptUntilMs ?? (is === 'coated' ? goodUntilMs : null)
}

/** Whether a screen should be clean by a moment. */
export function isOwed(
  { is, keptUntilMs, goodUntilMs }: Pick<OwedScreen, 'is' | 'keptUntilMs' | 'goodUntilMs'>,
  onMs: number,
): boolean {
  switch (is) {
    case 'to reclaim':
      return true
    case 'exposed':
    case 'in print':
      return keptUntilMs !== null && keptUntilMs < onMs
    case 'coated':
      return goodUntilMs !== null && goodUntilMs < onMs
    case 'clean':
    case 'torn':
    case 'lost':
      return false
  }
}

function isSlack({ tensionNewtonPerCm, is }: OwedScreen): boolean {
  return is !== 'lost' && tensionNewtonPerCm !== null && tensionNewtonPerCm < SLACK_NEWTON_PER_CM
}

/** Longest overdue first; those of which nobody knows the day last. */
function byDay(a: OwedScreen, b: OwedScreen): number {
  const [one, other] = [dueMs(a) ?? Infinity, dueMs(b) ?? Infinity]
  return one === other ? 0 : one - other
}

function stretchOrder({ is, tensionNewtonPerCm }: OwedScreen): number {
  return is === 'torn' ? -1 : (tensionNewtonPerCm ?? SLACK_NEWTON_PER_CM)
}
