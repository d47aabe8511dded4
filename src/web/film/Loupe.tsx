import { type ReactNode, useMemo } from 'react'
import { type Shown, useCanvasPicture } from './useCanvasPicture.ts'
import { viewOf } from './viewState.ts'

export type LoupeProps = Omit<Shown, 'who' | 'view'> &
  Readonly<{
    /** The film pixel in its middle. */
    x: number
    y: number
    /** CSS pixels a film pixel, and of its diameter. */
    scale: number
    sizePx: number
    side: 'left' | 'right'
  }>

/** A round glass over the picture that shows one place larger. */
export function Loupe({ x, y, scale, sizePx, side, ...shown }: LoupeProps): ReactNode {
  const view = useMemo(
    () => viewOf({ x, y, scale }, { widthPx: sizePx, heightPx: sizePx }, devicePixelRatio),
    [x, y, scale, sizePx],
  )
  const canvas = useCanvasPicture({ ...shown, who: 'loupe', view })
  return (
    <div className={`loupe loupe-${side}`} aria-hidden="true">
      <canvas ref={canvas} />
    </div>
  )
}
