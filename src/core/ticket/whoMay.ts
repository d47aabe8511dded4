import { type Machine, mayUse, type Shown, TAKES } from '../register/machines.ts'
import type { StationName } from './road.ts'

/** What one has to have been shown for a station, where the shop asks for it. */
export const STATION_TAKES: Readonly<Record<StationName, readonly Machine[]>> = {
  artwork: [],
  film: [],
  screen: TAKES.coat,
  light: TAKES.expose,
  water: ['water', 'drying'],
  print: TAKES.print,
  reclaim: TAKES.reclaim,
}

/** Somebody of the room: who shows things to others needs no sign-off. */
export type Hand = Readonly<{ name: string; showsOthers: boolean; shown: readonly Shown[] }>

export type WhoMay = Readonly<{
  /** Nothing that the shop asks for stands before it. */
  anybody: boolean
  names: readonly string[]
}>

/**
 * Who can do what a station asks for now.
 *
 * @param asked what this shop wants to have been shown first
 * @limits a sign-off for one of several machines counts, whichever it will be
 */
export function whoMay(
  hands: readonly Hand[],
  {
    station,
    asked,
    nowMs,
  }: Readonly<{ station: StationName; asked: readonly Machine[]; nowMs: number }>,
): WhoMay {
  const needs = STATION_TAKES[station].filter((machine) => asked.includes(machine))
  const can = ({ showsOthers, shown }: Hand): boolean => {
    return (
      showsOthers ||
      needs.every((machine) => mayUse(shown, { machine, unitId: null, nowMs }).verdict === 'may')
    )
  }
  return { anybody: needs.length === 0, names: hands.filter(can).map(({ name }) => name) }
}
