import { type KeyboardEvent, type PointerEvent, useRef } from 'react'
import type { PlaceEvent } from './placeState.ts'

const STEPS: Readonly<Record<string, readonly [x: number, y: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}
const FAR_MM = 10

type Moving = Readonly<{
  onPointerDown: (event: PointerEvent<SVGGElement>) => void
  onPointerMove: (event: PointerEvent<SVGGElement>) => void
  onPointerUp: (event: PointerEvent) => void
  onPointerCancel: (event: PointerEvent) => void
  onKeyDown: (event: KeyboardEvent) => void
  onFocus: () => void
}>

/** Where a finger or the mouse took hold, and where the piece lay then. */
type Held = Readonly<{ pointerId: number; x: number; y: number; xMm: number; yMm: number }>

/** What a piece of a drawing listens to, to be dragged by mouse and finger and stepped by keys. */
export function useMoving({
  laid,
  scale,
  isPicked,
  onPick,
  tell,
}: Readonly<{
  laid: Readonly<{ xMm: number; yMm: number }>
  scale: number
  isPicked: boolean
  onPick: () => void
  tell: (event: PlaceEvent) => void
}>): Moving {
  const held = useRef<Held | null>(null)
  const letGo = ({ pointerId }: PointerEvent): void => {
    if (held.current?.pointerId === pointerId) held.current = null
  }
  return {
    onPointerDown: (event) => {
      // a second finger takes nothing out of the first one's hand
      if (event.button !== 0 || held.current !== null) return
      const { pointerId, clientX: x, clientY: y } = event
      event.currentTarget.setPointerCapture(pointerId)
      held.current = { pointerId, x, y, xMm: laid.xMm, yMm: laid.yMm }
      onPick()
    },
    onPointerMove: (event) => {
      if (held.current?.pointerId !== event.pointerId) return
      const { x, y, xMm, yMm } = held.current
      const [byX, byY] = [(event.clientX - x) / scale, (event.clientY - y) / scale]
      if (byX === 0 && byY === 0) return
      tell({ kind: 'put', xMm: Math.round(xMm + byX), yMm: Math.round(yMm + byY) })
    },
    onPointerUp: letGo,
    onPointerCancel: letGo,
    onKeyDown: (event) => {
      const by = STEPS[event.key]
      if (by === undefined) return
      event.preventDefault()
      if (!isPicked) onPick()
      const mm = event.shiftKey ? FAR_MM : 1
      tell({ kind: 'step', xMm: by[0] * mm, yMm: by[1] * mm })
    },
    onFocus: onPick,
  }
}
