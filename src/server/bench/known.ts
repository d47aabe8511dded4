import type { KnownFacts } from '../../core/runSheet/step.ts'
import { coatingOn } from '../../store/coatings.ts'
import type { Database } from '../../store/database/database.ts'
import { filmOf } from '../../store/films.ts'
import { glassMarks, newestPlacement } from '../../store/placements.ts'
import { screenOfLayer } from '../../store/runs.ts'
import { screens } from '../../store/screens.ts'
import { findingsThatCount, marksOf } from '../films/filmMarks.ts'

type Of = Readonly<{ screenId: string | null; unitId: string; filmId: string | null; now: Date }>

/** Clocks of the shop's computer, which stands in the room. */
const CLOCK = new Intl.DateTimeFormat('en-GB', { timeStyle: 'short' })
const DAY = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long' })

/** What the shop knows of a screen, a film and a glass that speaks against exposing them so. */
export async function knownOf(
  database: Database,
  { screenId, unitId, filmId, now }: Of,
): Promise<KnownFacts> {
  const coat = screenId === null ? null : await coatingOn(database, screenId)
  const film = filmId === null ? null : await filmOf(database, filmId)
  const layerId = film?.layerId ?? null
  const given = layerId === null ? null : await screenOfLayer(database, { layerId })
  const others = given === null || given === screenId ? [] : await screens(database)
  const found = film === null ? null : marksOf(film)
  const placed = screenId === null ? null : await newestPlacement(database, { screenId })
  const lies = placed?.films.find((each) => each.filmId === filmId)
  return {
    dryAt:
      coat !== null && coat.dryAt !== null && coat.dryAt > now ? CLOCK.format(coat.dryAt) : null,
    goodUntil:
      coat !== null && coat.goodUntil !== null && coat.goodUntil < now
        ? DAY.format(coat.goodUntil)
        : null,
    ticketScreen: others.find(({ id }) => id === given)?.tag ?? null,
    glassMarks: (await glassMarks(database, { unitId })).length,
    weakMarks: found === null || film === null ? 0 : findingsThatCount(found, film).findings.length,
    place: lies === undefined ? null : { leftMm: lies.xMm, topMm: lies.yMm },
  }
}
