import { type ReactNode, useState } from 'react'
import { leakSentences } from '../../core/caution/leakingLid.ts'
import { BENCH_WORDS } from './benchWords.ts'

/** Behind the caution at the lamp: how long until the published limits beside a lid that leaks. */
export function LampLimits(): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="bench-limits">
      <button
        type="button"
        className="bench-other"
        aria-expanded={isOpen}
        onClick={() => setOpen(!isOpen)}
      >
        {BENCH_WORDS.limits}
      </button>
      {isOpen && leakSentences().map((sentence) => <p key={sentence}>{sentence}</p>)}
    </div>
  )
}
