import { type ReactNode, useId } from 'react'
import './numberFrame.css'
import './woodFrame.css'

export type NumberFrameProps = Readonly<{
  /** Over the number: what it is for. */
  lead?: string
  /** The number itself; a sentence where there is none. */
  value: string
  /** Beside the number, one word a line. */
  unit?: string
  /** Under the number: the range. */
  range: string
  /** The number is being worked out anew. */
  dimmed?: boolean
}>

/** The answer: a number in a mitred frame with yellow mesh. */
export function NumberFrame({
  lead,
  value,
  unit,
  range,
  dimmed = false,
}: NumberFrameProps): ReactNode {
  const isNumber = unit !== undefined || /^[\d.,]+$/.test(value)
  return (
    <div className="wood-frame number-frame">
      <div className="number-mesh">
        <MeshGround />
        <div className={dimmed ? 'number-words dimmed' : 'number-words'}>
          {lead !== undefined && <p className="number-lead">{lead}</p>}
          <p
            className={
              isNumber
                ? `number-line digits-${Math.min(5, value.length)}`
                : 'number-line number-none'
            }
          >
            <strong>{value}</strong>
            {unit !== undefined && <span className="number-unit">{` ${unit}`}</span>}
          </p>
          <p className="number-range">{range}</p>
        </div>
      </div>
    </div>
  )
}

/** Yellow mesh: threads over and under, with light in the openings. */
function MeshGround(): ReactNode {
  const id = useId()
  return (
    <svg className="mesh-ground" aria-hidden="true">
      <defs>
        <pattern id={id} width={9} height={9} patternUnits="userSpaceOnUse">
          <rect className="mesh-yellow" width={9} height={9} />
          <path
            className="mesh-thread-edge"
            d="M5 .75H9M5 3.75H9M.5 5.25H4.5M.5 8.25H4.5M.75 .5V4M3.75 .5V4M5.25 5V8.5M8.25 5V8.5"
          />
          <path
            className="mesh-opening"
            d="M0 0h1v1h-1zM4.25 0h1v1h-1zM0 4.25h1v1h-1zM4.25 4.25h1v1h-1z"
          />
        </pattern>
      </defs>
      <rect width="100%" height="100%" fill={`url(#${id})`} />
    </svg>
  )
}
