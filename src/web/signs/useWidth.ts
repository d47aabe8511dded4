import type { RefObject } from 'react'
import { useLayoutEffect, useRef, useState } from 'react'

/** Width of an element in CSS pixels, kept up with the page; `startPx` until it is known. */
export function useWidth<Shown extends HTMLElement>(
  startPx: number,
): readonly [RefObject<Shown | null>, number] {
  const shown = useRef<Shown>(null)
  const [widthPx, setWidthPx] = useState(startPx)
  useLayoutEffect(() => {
    const element = shown.current
    if (element === null) return undefined
    const measure = (): void => {
      const now = Math.round(element.clientWidth)
      if (now > 0) setWidthPx(now)
    }
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [shown, widthPx]
}
