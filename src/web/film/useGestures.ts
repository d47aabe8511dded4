import {
  type KeyboardEvent,
  type PointerEvent,
  type RefObject,
  useCallback,
  useEffect,
  useRef,
} from 'react'
import {
  type Box,
  type FilmSize,
  isSame,
  moved,
  type Sight,
  wholeFilm,
  ZOOM_STEP,
  zoomed,
} from './viewState.ts'

type Place = Readonly<{ x: number; y: number }>

export type Gestures = Readonly<{
  onPointerDown: (event: PointerEvent<HTMLElement>) => void
  onPointerMove: (event: PointerEvent<HTMLElement>) => void
  onPointerUp: (event: PointerEvent<HTMLElement>) => void
  onPointerCancel: (event: PointerEvent<HTMLElement>) => void
  onPointerLeave: () => void
  onKeyDown: (event: KeyboardEvent) => void
}>

/** An arrow moves the film by this share of the box. */
const ARROW_SHARE = 0.15
/** A wheel's pixels for twice as near. */
const WHEEL_PX = 320

/**
 * Drag, pinch, wheel and keys over the picture. At the whole film a wheel backwards and one finger
 * are left to the page, so nobody is held fast over a picture.
 *
 * @param onHover the place under a mouse that is not pressed; null when it left
 */
export function useGestures(
  stage: RefObject<HTMLElement | null>,
  {
    film,
    box,
    sight,
    onSight,
    onHover,
  }: Readonly<{
    film: FilmSize
    box: Box
    sight: Sight
    onSight: (next: (sight: Sight) => Sight) => void
    onHover: (at: Place | null) => void
  }>,
): Gestures {
  const fingers = useRef(new Map<number, Place>())
  const isWhole = isSame(sight, wholeFilm(film, box))

  const zoomAt = useCallback(
    (factor: number, at: Place) => onSight((now) => zoomed(now, { factor, at }, film, box)),
    [film, box, onSight],
  )

  useEffect(() => {
    const element = stage.current
    if (element === null) return undefined
    const turn = (event: WheelEvent): void => {
      if (isWhole && event.deltaY > 0) return
      event.preventDefault()
      zoomAt(2 ** (-event.deltaY / WHEEL_PX), within(element, event))
    }
    element.addEventListener('wheel', turn, { passive: false })
    return () => element.removeEventListener('wheel', turn)
  }, [stage, zoomAt, isWhole])

  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    const at = within(event.currentTarget, event)
    const before = fingers.current.get(event.pointerId)
    if (before === undefined) {
      if (event.pointerType === 'mouse') onHover(at)
      return
    }
    const other = [...fingers.current].find(([id]) => id !== event.pointerId)?.[1]
    fingers.current.set(event.pointerId, at)
    if (other !== undefined) {
      const factor = apart(at, other) / Math.max(1, apart(before, other))
      zoomAt(factor, { x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 })
    }
    const by = { x: at.x - before.x, y: at.y - before.y }
    const share = other === undefined ? 1 : 0.5
    onSight((now) => moved(now, { x: by.x * share, y: by.y * share }, film, box))
  }

  const lift = (event: PointerEvent<HTMLElement>): void => {
    fingers.current.delete(event.pointerId)
  }

  return {
    onPointerDown: (event) => {
      if (event.button !== 0) return
      event.currentTarget.setPointerCapture(event.pointerId)
      fingers.current.set(event.pointerId, within(event.currentTarget, event))
    },
    onPointerMove,
    onPointerUp: lift,
    onPointerCancel: lift,
    onPointerLeave: () => onHover(null),
    onKeyDown: (event) => {
      const middle = { x: box.widthPx / 2, y: box.heightPx / 2 }
      const step = { x: ARROW_SHARE * box.widthPx, y: ARROW_SHARE * box.heightPx }
      const acts: Readonly<Record<string, () => void>> = {
        '+': () => zoomAt(ZOOM_STEP, middle),
        '=': () => zoomAt(ZOOM_STEP, middle),
        '-': () => zoomAt(1 / ZOOM_STEP, middle),
        '0': () => onSight(() => wholeFilm(film, box)),
        Home: () => onSight(() => wholeFilm(film, box)),
        ArrowLeft: () => onSight((now) => moved(now, { x: step.x, y: 0 }, film, box)),
        ArrowRight: () => onSight((now) => moved(now, { x: -step.x, y: 0 }, film, box)),
        ArrowUp: () => onSight((now) => moved(now, { x: 0, y: step.y }, film, box)),
        ArrowDown: () => onSight((now) => moved(now, { x: 0, y: -step.y }, film, box)),
      }
      const act = acts[event.key]
      if (act === undefined || event.ctrlKey || event.metaKey || event.altKey) return
      event.preventDefault()
      act()
    },
  }
}

function within(
  element: HTMLElement,
  event: Readonly<{ clientX: number; clientY: number }>,
): Place {
  const { left, top } = element.getBoundingClientRect()
  return { x: event.clientX - left, y: event.clientY - top }
}

function apart(a: Place, b: Place): number {
  return Math.hypot(a.x - b.x, a.y - b.y)
}
