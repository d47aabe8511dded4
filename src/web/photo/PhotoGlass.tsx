import type { ReactNode } from 'react'
import type { PhotoPoint } from '../../api/photos.ts'
import type { Corners, PhotoSize } from './corners.ts'

/** How much of the photo the glass shows: this share of its longer side. */
const SHOWN_SHARE = 0.075

/** A picture so many times as wide as high is a low one: the glass hangs above it. */
const LOW = 1.6

/** The place in hand, enlarged, in the corner of the picture that is farthest from the finger. */
export function PhotoGlass({
  photo,
  corners,
  at,
}: Readonly<{
  photo: PhotoSize & Readonly<{ preview: string }>
  corners: Corners
  at: PhotoPoint
}>): ReactNode {
  const { widthPx, heightPx, preview } = photo
  const side = SHOWN_SHARE * Math.max(widthPx, heightPx)
  const [left, top] = [at.x - side / 2, at.y - side / 2]
  const across = at.x < widthPx / 2 ? 'right' : 'left'
  // over a low picture it would hide what it is to be seen beside
  const down = widthPx > LOW * heightPx ? 'above' : at.y < heightPx / 2 ? 'low' : 'high'
  const sheet = corners.map(({ x, y }) => `${x} ${y}`).join('L')
  const tick = 0.14 * side
  return (
    <svg
      className={`photo-glass photo-glass-${across} photo-glass-${down}`}
      viewBox={`${left} ${top} ${side} ${side}`}
      aria-hidden="true"
    >
      <rect className="photo-glass-ground" x={left} y={top} width={side} height={side} />
      <image href={preview} width={widthPx} height={heightPx} preserveAspectRatio="none" />
      <path className="photo-edge-under" d={`M${sheet}Z`} />
      <path className="photo-edge" d={`M${sheet}Z`} />
      <path
        className="photo-cross"
        d={`M${at.x - tick} ${at.y}h${2 * tick}M${at.x} ${at.y - tick}v${2 * tick}`}
      />
    </svg>
  )
}
