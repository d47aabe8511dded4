import { useCallback, useEffect, useState } from 'react'

/** A card of the size ID-1, as banks and libraries give out: ISO/IEC 7810. */
export const CARD_MM = { width: 85.6, height: 53.98 }

/** A CSS pixel is meant to be a 96th of an inch; few screens keep to it. */
const STATED_PER_MM = 96 / 25.4
const KEY = 'yellowroom.screen-px-per-mm'
/** Screens of watches and walls lie within. */
export const PER_MM = { low: 1, high: 60 }

export type ScreenScale = Readonly<{
  /** CSS pixels in a mm of this screen. */
  perMm: number
  /** Somebody held a card or a ruler to it; else it is what the device states. */
  isMeasured: boolean
  /** Null: as the device states. */
  keep: (perMm: number | null) => void
}>

/** How large a mm is on this screen, kept on this device; zooming the page changes nothing of it. */
export function useScreenScale(): ScreenScale {
  const [devicePerMm, setDevicePerMm] = useState(kept)
  const [ratio, setRatio] = useState(devicePixelRatio)
  useEffect(() => {
    const zoomed = (): void => setRatio(devicePixelRatio)
    addEventListener('resize', zoomed)
    return () => removeEventListener('resize', zoomed)
  }, [])
  const keep = useCallback((perMm: number | null) => {
    const next = perMm === null ? null : perMm * devicePixelRatio
    setDevicePerMm(next)
    try {
      if (next === null) localStorage.removeItem(KEY)
      else localStorage.setItem(KEY, String(next))
    } catch {
      // nothing may be kept here: it holds until the page is left
    }
  }, [])
  const isMeasured = devicePerMm !== null
  return { perMm: isMeasured ? devicePerMm / ratio : STATED_PER_MM, isMeasured, keep }
}

function kept(): number | null {
  try {
    const found = Number(localStorage.getItem(KEY))
    return found >= PER_MM.low && found <= PER_MM.high ? found : null
  } catch {
    return null
  }
}
