import type { ReactNode } from 'react'
import { isGaugeUsual, setVerdict } from '../../core/runSheet/checks.ts'
import type { Asks } from '../../core/runSheet/step.ts'
import { BENCH_WORDS } from './benchWords.ts'
import { countText } from './clockText.ts'

/** What is entered at a step; nulls: nothing yet. */
export type Entered = Readonly<{ value: number | null; second: number | null }>

export function entryFor(asks: Asks | null): Entered {
  return {
    value: asks === null || asks.what === 'wedge' || asks.what === 'gauge' ? null : asks.start,
    second: null,
  }
}

/** What the gauge says against where it stood before; null: nothing to say. */
export function gaugeOff(asks: Asks | null, { value }: Entered): string | null {
  if (asks === null || asks.what !== 'gauge' || value === null || asks.usual === null) return null
  if (isGaugeUsual(value, asks)) return null
  return BENCH_WORDS.gaugeOff(countText(asks.usual))
}

/** Why what is entered cannot be told; null: it can. */
export function entryOff(asks: Asks | null, { value }: Entered): string | null {
  if (asks === null || asks.what !== 'set' || value === null) return null
  if (setVerdict(value, asks) !== 'off') return null
  return BENCH_WORDS.off(countText(value), countText(asks.start))
}

/** The numbers a step asks back. */
export function AskedNumbers({
  asks,
  entered,
  onEnter,
}: Readonly<{ asks: Asks; entered: Entered; onEnter: (entered: Entered) => void }>): ReactNode {
  if (asks.what === 'gauge') {
    return <Gauge usual={asks.usual} entered={entered} onEnter={onEnter} />
  }
  if (asks.what !== 'wedge') {
    const value = entered.value ?? asks.start
    const by = value < 10 ? [-1, -0.1, 0.1, 1] : [-10, -1, 1, 10]
    const to = (step: number): number => Math.max(0, Math.round((value + step) * 10) / 10)
    return (
      <div className="bench-asks">
        <p className="bench-count">{countText(value)}</p>
        <div className="bench-steps">
          {by.map((step) => (
            <Nudge key={step} by={step} onPress={() => onEnter({ ...entered, value: to(step) })} />
          ))}
        </div>
      </div>
    )
  }
  const { value, second } = entered
  return (
    <div className="bench-asks bench-asks-two">
      <Numbered
        word={BENCH_WORDS.lastSolid}
        number={value}
        range={[0, asks.steps]}
        first={USUAL_LAST_SOLID}
        onNumber={(next) =>
          onEnter({ value: next, second: second !== null && second <= next ? next + 1 : second })
        }
      />
      <Numbered
        word={BENCH_WORDS.firstClear}
        number={second}
        range={[(value ?? 0) + 1, asks.steps + 1]}
        first={(value ?? USUAL_LAST_SOLID) + 1}
        onNumber={(next) => onEnter({ value, second: next })}
      />
    </div>
  )
}

/** What the vacuum gauge stands at; who has none, or does not read it, goes on without. */
function Gauge({
  usual,
  entered: { value, second },
  onEnter,
}: Readonly<{
  usual: number | null
  entered: Entered
  onEnter: (entered: Entered) => void
}>): ReactNode {
  const to = (by: number): void => {
    const from = value ?? usual
    const next = value === null && usual !== null ? usual : (from ?? 0) + by
    onEnter({ value: Math.max(0, Math.round(next * 10) / 10), second })
  }
  // from where it usually stands it is never far
  const isFar = usual === null
  return (
    <div className="bench-numbered">
      <div className="bench-steps">
        <p className="bench-word">{BENCH_WORDS.gauge}</p>
        <p className="bench-number">{value === null ? BENCH_WORDS.none : countText(value)}</p>
      </div>
      <div className="bench-steps">
        {isFar && <Nudge by={-10} of={BENCH_WORDS.gauge} onPress={() => to(-10)} />}
        <Nudge by={-1} of={BENCH_WORDS.gauge} onPress={() => to(-1)} />
        <Nudge by={1} of={BENCH_WORDS.gauge} onPress={() => to(1)} />
        {isFar && <Nudge by={10} of={BENCH_WORDS.gauge} onPress={() => to(10)} />}
      </div>
    </div>
  )
}

/** Where one begins to look on a wedge; nothing is told before it was touched. */
const USUAL_LAST_SOLID = 7

function Numbered({
  word,
  number,
  range: [low, high],
  first,
  onNumber,
}: Readonly<{
  word: string
  number: number | null
  range: readonly [number, number]
  first: number
  onNumber: (number: number) => void
}>): ReactNode {
  const to = (by: number): void =>
    onNumber(Math.min(high, Math.max(low, number === null ? first : number + by)))
  return (
    <div className="bench-numbered">
      <p className="bench-word">{word}</p>
      <div className="bench-steps">
        <Nudge by={-1} of={word} onPress={() => to(-1)} />
        <p className="bench-number">{number ?? BENCH_WORDS.none}</p>
        <Nudge by={1} of={word} onPress={() => to(1)} />
      </div>
    </div>
  )
}

function Nudge({
  by,
  of,
  onPress,
}: Readonly<{ by: number; of?: string; onPress: () => void }>): ReactNode {
  const size = Math.abs(by)
  const words = by < 0 ? BENCH_WORDS.less(size) : BENCH_WORDS.more(size)
  return (
    <button
      type="button"
      className="bench-nudge"
      aria-label={of === undefined ? words : `${of}: ${words}`}
      onClick={onPress}
    >
      {by < 0 ? '−' : '+'}
      {(of === undefined || size > 1) && size}
    </button>
  )
}
