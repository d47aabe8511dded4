import type { ReactNode } from 'react'
import type { ScreenPage } from '../../api/register.ts'
import type { Slot } from '../../core/register/rack.ts'
import { Link, screenRoute } from '../router.tsx'
import { FrameDrawing, type Station } from '../signs/StationFrame.tsx'
import { SCREENS_WORDS } from './screensWords.ts'

const PITCH = 44
const FRAMES: Readonly<Record<string, Station>> = {
  clean: 'not yet',
  coated: 'drying',
  exposed: 'done',
  'in print': 'done',
  'to reclaim': 'done',
  torn: 'make again',
  lost: 'make again',
}

/** The rack around a screen's place, as one stands before it, and what stands beside it. */
export function Rack({
  slot,
  beside,
  own,
}: Readonly<{ slot: Slot; beside: ScreenPage['beside']; own: string }>): ReactNode {
  const neighbour = beside.find(
    ({ tag, place }) => tag !== null && tag !== own && place > slot.place,
  )
  return (
    <div className="rack">
      <svg
        className="rack-picture"
        viewBox={`0 0 ${PITCH * beside.length + 2} 74`}
        role="img"
        aria-label={SCREENS_WORDS.rackPicture(slot.rack)}
      >
        <path className="rack-board" d={`M1 50H${PITCH * beside.length + 1}`} />
        {Array.from({ length: beside.length + 1 }, (_, at) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: posts have nothing but their place
            key={at}
            className="rack-post"
            d={`M${1 + at * PITCH} 28V50`}
          />
        ))}
        {beside.map(({ place, tag, state }, at) => (
          <g key={place} transform={`translate(${at * PITCH + 7} 14)`}>
            {place === slot.place ? (
              <>
                <rect className="rack-here" x={0.75} y={3.75} width={30} height={30} />
                <path className="rack-arrow" d="M15.7 -8V24M8 16 15.7 24 23.4 16" />
              </>
            ) : (
              tag !== null && (
                <g transform="translate(0 4) scale(1.3)">
                  <FrameDrawing state={FRAMES[state ?? 'clean'] ?? 'not yet'} />
                </g>
              )
            )}
            <text className={place === slot.place ? 'rack-own' : 'rack-tag'} x={15.7} y={55}>
              {place === slot.place ? own : (tag ?? '·')}
            </text>
          </g>
        ))}
      </svg>
      {neighbour?.tag !== null && neighbour !== undefined && (
        <p className="rack-beside">
          <Link to={screenRoute(neighbour.tag)} className="word-link">
            {SCREENS_WORDS.beside(neighbour.tag)}
          </Link>
          {SCREENS_WORDS.counts[neighbour.state ?? 'clean']}
        </p>
      )}
    </div>
  )
}
