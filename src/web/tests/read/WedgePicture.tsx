import type { ReactNode } from 'react'
import { READ_WORDS } from './readWords.ts'
import './wedge.css'

export type WedgeMarks = Readonly<{
  steps: number
  /** The last solid step; 0: not one; null: not told. */
  solid: number | null
  /** The first clear step; null: not told. */
  clear: number | null
}>

export type StepIs = 'solid' | 'part' | 'clear' | 'open'

/** How a step stands by what has been told. */
export function stepIs(step: number, { solid, clear }: WedgeMarks): StepIs {
  if (solid !== null && step <= solid) return 'solid'
  if (clear !== null && step >= clear) return 'clear'
  return solid !== null && clear !== null ? 'part' : 'open'
}

/** What a tap on a step tells: first the last solid step, then the first clear one. */
export function afterTap(
  step: number,
  { solid, clear }: WedgeMarks,
): Readonly<{ solid: number; clear: number | null }> {
  return solid === null || clear !== null || step <= solid
    ? { solid: step, clear: null }
    : { solid, clear: step }
}

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
