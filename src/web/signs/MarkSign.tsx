import { type ReactNode, useId } from 'react'
import './markSign.css'

/** What a mark of the film becomes: full ink, a skin thin or thick, or nothing. */
export type MarkFate = 'opens' | 'thin' | 'thick' | 'shut'

const STROKE = 'M12 40C28 16 52 12 72 30S124 62 148 34 160 16 166 12'
const THREADS_PX: Readonly<Record<'thin' | 'thick', number>> = { thin: 9, thick: 5.5 }

/** One stroke as the stencil will have it. */
export function MarkSign({
  fate,
  width = 178,
}: Readonly<{ fate: MarkFate; width?: number }>): ReactNode {
  const id = useId()
  const clip = `${id}clip`
  return (
    <svg
      className="mark-sign"
      viewBox="0 0 178 62"
      width={width}
      height={(width * 62) / 178}
      aria-hidden="true"
    >
      {fate === 'opens' && <path className="mark-opens" d={STROKE} />}
      {fate === 'shut' && (
        <>
          <path className="mark-edge" d={STROKE} />
          <path className="mark-inside" d={STROKE} />
        </>
      )}
      {(fate === 'thin' || fate === 'thick') && (
        <>
          <mask id={clip}>
            <path className="mark-mask" d={STROKE} />
          </mask>
          <path
            className={`mark-threads mark-${fate}`}
            mask={`url(#${clip})`}
            d={threads(THREADS_PX[fate])}
          />
        </>
      )}
    </svg>
  )
}

function threads(everyPx: number): string {
  const count = Math.ceil(220 / everyPx)
  return Array.from({ length: count }, (_, at) => `M${at * everyPx - 20} 66l30 -70`).join('')
}
