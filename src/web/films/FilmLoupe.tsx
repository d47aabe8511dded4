import { type KeyboardEvent, type ReactNode, useEffect, useRef } from 'react'
import type { Lab } from '../../core/colour/space.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { paintDots, paintPrint } from './paintDots.ts'
import type { Dots } from './previewAsk.ts'

/** What is under the loupe: a place on the print, and the dots there. */
export type LoupeLook = Readonly<{
  xShare: number
  yShare: number
  name: string
  lab: Lab
  dots: Dots | null
  fabric: Readonly<{ weave: Weave; dyed: boolean }> | null
}>

/** Device pixels of its picture, from rim to rim. */
const SIDE_PX = 420

/** One loupe, down to the dots on the fabric's threads. */
export function FilmLoupe({
  look,
  onLook,
  widthMm,
  heightMm,
}: Readonly<{
  look: LoupeLook
  onLook: (at: Readonly<{ xShare: number; yShare: number }>) => void
  widthMm: number
  heightMm: number
}>): ReactNode {
  const units = useUnits()
  const canvas = useRef<HTMLCanvasElement>(null)
  const { xShare, yShare, name, lab, dots, fabric } = look
  useEffect(() => {
    const brush = canvas.current?.getContext('2d') ?? null
    if (brush === null || dots === null) return
    const image = brush.createImageData(SIDE_PX, SIDE_PX)
    if (dots.print === null) paintDots(image.data, SIDE_PX, { dots, lab, fabric })
    else paintPrint(image.data, SIDE_PX, { sidePx: dots.sidePx, print: dots.print })
    brush.putImageData(image, 0, 0)
  }, [dots, lab, fabric])
  const step = (event: KeyboardEvent): void => {
    const [right, down] = STEPS[event.key] ?? [0, 0]
    if (right === 0 && down === 0) return
    event.preventDefault()
    const mm = event.shiftKey ? 10 : 1
    onLook({ xShare: xShare + (right * mm) / widthMm, yShare: yShare + (down * mm) / heightMm })
  }
  const place = FILMS_WORDS.place(
    lengthText(xShare * widthMm, units),
    lengthText(yShare * heightMm, units),
  )
  return (
    <>
      <button
        type="button"
        className="loupe-place"
        aria-label={FILMS_WORDS.loupe(name, place)}
        ref={(handle) => {
          handle?.style.setProperty('--x', String(xShare))
          handle?.style.setProperty('--y', String(yShare))
        }}
        onKeyDown={step}
      />
      <div
        className={isLow(look) ? 'films-loupe films-loupe-low' : 'films-loupe'}
        aria-hidden="true"
      >
        <canvas ref={canvas} width={SIDE_PX} height={SIDE_PX} />
      </div>
    </>
  )
}

/** The loupe lies in the upper left, and in the lower where it would hide what it shows. */
export function isLow({ xShare, yShare }: Pick<LoupeLook, 'xShare' | 'yShare'>): boolean {
  return xShare < 0.5 && yShare < 0.5
}

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}
