/** The seven stations of a layer, in the order of its road. */
export const STATIONS = ['artwork', 'film', 'screen', 'light', 'water', 'print', 'reclaim'] as const

export type StationName = (typeof STATIONS)[number]

/** What was told of a layer: a station is done, or it goes back to one and all after it open again. */
export type RoadEvent = Readonly<{ kind: 'done' | 'back'; station: StationName }>

export type StationState = 'not yet' | 'here now' | 'done' | 'make again'

/** A layer's road: where it is, and how each of its stations stands. */
export type Road = Readonly<{
  /** The first station that is not done; null when the road is walked. */
  at: StationName | null
  /** One of each station, in their order. */
  states: readonly StationState[]
}>

/**
 * A layer's road, from what was told of it, oldest first.
 *
 * A station that is done takes all before it along: who has a washed-out screen had a film. Going
 * back opens the station and all after it; it is drawn as made again until it is done once more.
 */
export function roadOf(events: readonly RoadEvent[]): Road {
  let done = 0
  let again: number | null = null
  for (const { kind, station } of events) {
    const place = STATIONS.indexOf(station)
    if (kind === 'done') {
      done = Math.max(done, place + 1)
      if (again !== null && done > again) again = null
    } else if (place < done) {
      done = place
      again = place
    }
  }
  return {
    at: STATIONS[done] ?? null,
    states: STATIONS.map((_, place) => {
      if (place < done) return 'done'
      if (place > done) return 'not yet'
      return place === again ? 'make again' : 'here now'
    }),
  }
}

/**
 * What to do next on a ticket: of the layers that are not printed the first in print order; when
 * all are printed, the first whose screen is not reclaimed.
 *
 * @param roads in print order
 * @returns which road, counted from 0, and its station; null when all is done
 */
export function nextOnTicket(
  roads: readonly Road[],
): Readonly<{ layer: number; station: StationName }> | null {
  const open = roads.flatMap(({ at }, layer) => (at === null ? [] : [{ layer, station: at }]))
  return open.find(({ station }) => station !== 'reclaim') ?? open[0] ?? null
}
