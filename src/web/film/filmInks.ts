import { useEffect, useState } from 'react'
import type { PictureInks, Rgb } from '../../raster/stencilPicture.ts'
import { type FilmPalette, filmPalette } from '../../workflow/filmForecastView.ts'

const PRINTED: PictureInks = {
  sheet: [255, 255, 255],
  ink: [0, 0, 0],
  cut: [90, 90, 90],
  soft: [120, 120, 120],
}

/** The picture's colours as the tokens have them now; follows the scheme, and paper when printed. */
export function useFilmPalette(): FilmPalette {
  const [palette, setPalette] = useState(() => filmPalette(inksNow()))
  useEffect(() => {
    const follow = (): void => setPalette(filmPalette(inksNow()))
    const print = (): void => setPalette(filmPalette(PRINTED))
    const scheme = new MutationObserver(follow)
    scheme.observe(document.documentElement, { attributeFilter: ['data-scheme'] })
    const forced = matchMedia('(forced-colors: active)')
    forced.addEventListener('change', follow)
    addEventListener('beforeprint', print)
    addEventListener('afterprint', follow)
    return () => {
      scheme.disconnect()
      forced.removeEventListener('change', follow)
      removeEventListener('beforeprint', print)
      removeEventListener('afterprint', follow)
    }
  }, [])
  return palette
}

function inksNow(): PictureInks {
  const probe = document.createElement('canvas')
  probe.width = 1
  probe.height = 1
  const brush = probe.getContext('2d', { willReadFrequently: true })
  const tokens = getComputedStyle(document.documentElement)
  const colour = (name: string): Rgb => {
    if (brush === null) return [128, 128, 128]
    brush.fillStyle = tokens.getPropertyValue(`--${name}`).trim()
    brush.fillRect(0, 0, 1, 1)
    const [red = 0, green = 0, blue = 0] = brush.getImageData(0, 0, 1, 1).data
    return [red, green, blue]
  }
  return {
    sheet: colour('sheet'),
    ink: colour('ink'),
    cut: colour('cut'),
    soft: colour('soft'),
  }
}
