import type { ReactNode } from 'react'
import type { Cause, Step } from '../../core/runSheet/step.ts'
import { BENCH_WORDS } from './benchWords.ts'

/** What may be wrong at this step: at most three causes, one act each. */
export function NotRight({
  step,
  onCause,
  onBack,
  onWhy,
  onLeave,
  onClose,
}: Readonly<{
  step: Step
  onCause: (cause: Cause) => void
  /** Null: there is no step before. */
  onBack: (() => void) | null
  onWhy: () => void
  onLeave: () => void
  onClose: () => void
}>): ReactNode {
  return (
    <div className="bench-panel">
      <h1>{BENCH_WORDS.whatIs}</h1>
      <ul className="bench-causes">
        {step.causes.map((cause) => (
          <li key={cause.name}>
            <button type="button" className="bench-cause" onClick={() => onCause(cause)}>
              <span>{cause.says}</span> <strong>{cause.act}</strong>
            </button>
          </li>
        ))}
      </ul>
      <div className="bench-others">
        {onBack !== null && (
          <button type="button" className="bench-other" onClick={onBack}>
            {BENCH_WORDS.backOne}
          </button>
        )}
        <button type="button" className="bench-other" onClick={onWhy}>
          {BENCH_WORDS.why}
        </button>
        <button type="button" className="bench-other" onClick={onLeave}>
          {BENCH_WORDS.leave}
        </button>
        <button type="button" className="bench-other" onClick={onClose}>
          {BENCH_WORDS.allRight}
        </button>
      </div>
    </div>
  )
}

/** Asked before one goes where it is bright. */
export function Leaving({
  onYes,
  onNo,
}: Readonly<{ onYes: () => void; onNo: () => void }>): ReactNode {
  return (
    <>
      <main id="page" tabIndex={-1} className="bench-main">
        <h1>{BENCH_WORDS.leaving}</h1>
      </main>
      <Acts
        left={{ word: BENCH_WORDS.leaveNo, onPress: onNo }}
        main={{ word: BENCH_WORDS.leaveYes, onPress: onYes }}
      />
    </>
  )
}

type Act = Readonly<{ word: string; onPress: () => void; not?: boolean }>

/** What fills the lower quarter: a second act, and the next thing to do. */
export function Acts({ left, main }: Readonly<{ left: Act | null; main: Act }>): ReactNode {
  return (
    <div className="bench-acts">
      {left !== null && (
        <button type="button" className="bench-left" onClick={left.onPress}>
          {left.word}
        </button>
      )}
      <button
        type="button"
        className="bench-main-act"
        aria-disabled={main.not === true}
        onClick={() => {
          if (main.not !== true) main.onPress()
        }}
      >
        {main.word}
      </button>
    </div>
  )
}
