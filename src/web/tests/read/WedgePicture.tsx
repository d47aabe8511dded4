import type { ReactNode } from 'react'
import { READ_WORDS } from './readWords.ts'
import './wedge.css'
import { afterTap, type StepIs, stepIs, type WedgeMarks } from './wedgeMarks.ts'

/** A step wedge as it looks on the washed-out screen; its steps can be tapped. */
export function WedgePicture({
  marks,
  onMarks,
}: Readonly<{
  marks: WedgeMarks
  onMarks: (told: Readonly<{ solid: number; clear: number | null }>) => void
}>): ReactNode {
  return (
    <ol className="wedge">
      {Array.from({ length: marks.steps }, (_, at) => at + 1).map((step) => {
        const is = stepIs(step, marks)
        return (
          <li key={step}>
            <button
              type="button"
              className={`wedge-step wedge-${is}`}
              aria-label={READ_WORDS.step(step, READ_WORDS.stepIs[is])}
              onClick={() => onMarks(afterTap(step, marks))}
            >
              <StepDrawing is={is} />
              <span className="wedge-number">{step}</span>
            </button>
          </li>
        )
      })}
    </ol>
  )
}

/** Woven as hardened, threads one way in part, nothing when it is gone. */
function StepDrawing({ is }: Readonly<{ is: StepIs }>): ReactNode {
  if (is !== 'part') return null
  return (
    <svg
      className="wedge-threads"
      viewBox="0 0 40 48"
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <path d="M4 0V48M12 0V48M20 0V48M28 0V48M36 0V48" />
    </svg>
  )
}
