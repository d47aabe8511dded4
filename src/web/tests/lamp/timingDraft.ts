import type { NewTiming } from '../../../api/lamp.ts'
import { onTold } from '../days.ts'
import { clockWritten, numberWritten, valueOf } from '../written.ts'
import { LAMP_WORDS } from './lampWords.ts'

/** Clock and counter as they were typed. */
export type PairDraft = Readonly<{ clock: string; count: string }>
export type TimingDraft = Readonly<{
  from: NewTiming['from']
  on: string
  lampHours: string
  pairs: readonly PairDraft[]
}>

export const NO_PAIR: PairDraft = { clock: '', count: '' }
export const NO_TIMING: TimingDraft = {
  from: 'cold',
  on: '',
  lampHours: '',
  pairs: Array.from({ length: 6 }, () => NO_PAIR),
}

export type TimingWrong = Readonly<{
  /** By the pair's place in the list. */
  pairs: Readonly<Record<number, string>>
  lampHours: string | null
  whole: string | null
}>

const COUNT = { low: 0, high: 1e7 }
const HOURS = { low: 0, high: 1_000_000 }

/** The timing as it goes out, or what is wrong with it. Pairs with nothing in them are not told. */
export function timingOf(
  draft: TimingDraft,
  unit: string,
): Readonly<{ timing: NewTiming; wrong: null }> | Readonly<{ timing: null; wrong: TimingWrong }> {
  const told = draft.pairs.filter(isTold)
  const pairs = told.map(({ clock, count }) => ({
    clockSec: valueOf(clockWritten(clock)) ?? 0,
    count: valueOf(numberWritten(count, COUNT)) ?? 0,
  }))
  const hours = numberWritten(draft.lampHours, HOURS)
  const wrong: TimingWrong = {
    pairs: Object.fromEntries(
      draft.pairs.flatMap((pair, at) => {
        const why = isTold(pair) ? wrongPair(pair) : null
        return why === null ? [] : [[at, why]]
      }),
    ),
    lampHours: hours.kind === 'wrong' ? LAMP_WORDS.wrongHours(draft.lampHours.trim()) : null,
    whole: told.length < 2 ? LAMP_WORDS.tooFew : falls(pairs) ? LAMP_WORDS.falling : null,
  }
  const isWrong =
    Object.keys(wrong.pairs).length > 0 || wrong.lampHours !== null || wrong.whole !== null
  if (isWrong) return { timing: null, wrong }
  const timing: NewTiming = {
    from: draft.from,
    pairs: pairs.toSorted((a, b) => a.clockSec - b.clockSec),
    ...(unit === '' ? {} : { unit }),
    ...onTold(draft.on),
    ...(hours.kind === 'number' ? { lampHours: hours.value } : {}),
  }
  return { timing, wrong: null }
}

function isTold({ clock, count }: PairDraft): boolean {
  return clock.trim() !== '' || count.trim() !== ''
}

function wrongPair({ clock, count }: PairDraft): string | null {
  const [clockIs, countIs] = [clockWritten(clock), numberWritten(count, COUNT)]
  if (clockIs.kind === 'wrong') return LAMP_WORDS.wrongClock(clock.trim())
  if (countIs.kind === 'wrong') return LAMP_WORDS.wrongCount(count.trim())
  return clockIs.kind === 'nothing' || countIs.kind === 'nothing' ? LAMP_WORDS.half : null
}

function falls(pairs: NewTiming['pairs']): boolean {
  const sorted = pairs.toSorted((a, b) => a.clockSec - b.clockSec)
  return sorted.some(({ count }, at) => count < (sorted[at - 1]?.count ?? 0))
}
