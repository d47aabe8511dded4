/** What one is shown before one uses it. */
export const MACHINES = [
  'coating',
  'drying',
  'light',
  'water',
  'pressure washing',
  'chemicals',
  'printing',
  'cutting',
  'alone',
] as const

export type Machine = (typeof MACHINES)[number]

/** Those that a shop lists one by one; exposure units and the day's stations stand listed already. */
export const LISTED_MACHINES: readonly ['printing', 'pressure washing', 'cutting'] = [
  'printing',
  'pressure washing',
  'cutting',
]

/** What somebody sets out to do with a screen. */
export const ACTS = ['coat', 'expose', 'reclaim', 'print'] as const

export type MachineAct = (typeof ACTS)[number]

/**
 * What each takes from its beginning to its end: who lights a lamp has to wash out and dry at once,
 * so all of it is asked for before anything is uncovered. Judged.
 */
export const TAKES: Readonly<Record<MachineAct, readonly Machine[]>> = {
  coat: ['coating', 'drying'],
  expose: ['light', 'water', 'drying'],
  reclaim: ['chemicals', 'water', 'pressure washing'],
  print: ['printing'],
}

/** What a shop asks for that has not said otherwise: what hurts, or loses a screen. Judged. */
export const USUALLY_SHOWN_FIRST: readonly Machine[] = [
  'coating',
  'drying',
  'light',
  'water',
  'pressure washing',
  'chemicals',
]

/** A sign-off as far as it decides: moments in ms. */
export type Shown = Readonly<{
  machine: Machine
  /** Of that one alone, where a shop has several; null: of all. */
  unitId: string | null
  givenMs: number
  /** Null: for good. */
  expiresMs: number | null
}>

export type MaySay =
  | Readonly<{ verdict: 'may' }>
  | Readonly<{ verdict: 'never shown' }>
  | Readonly<{ verdict: 'run out'; expiredMs: number }>

/**
 * Whether somebody may use a machine now, by what they were shown.
 *
 * @param of unitId: which of several it will be; null: nobody has said, so being shown any of them
 * counts
 */
export function mayUse(
  shown: readonly Shown[],
  of: Readonly<{ machine: Machine; unitId: string | null; nowMs: number }>,
): MaySay {
  const { machine, unitId, nowMs } = of
  const own = shown.filter(
    (each) =>
      each.machine === machine &&
      (unitId === null || each.unitId === null || each.unitId === unitId),
  )
  if (own.some(({ givenMs, expiresMs }) => givenMs <= nowMs && (expiresMs ?? Infinity) > nowMs)) {
    return { verdict: 'may' }
  }
  const ended = own.flatMap(({ expiresMs }) => expiresMs ?? [])
  return ended.length === 0
    ? { verdict: 'never shown' }
    : { verdict: 'run out', expiredMs: Math.max(...ended) }
}
