import { type ReactNode, useEffect, useRef } from 'react'
import type { Layer } from '../../api/tickets.ts'
import { TILE_SIDE } from '../../raster/tiles.ts'
import { type FilmCover, useFilmCover } from '../film/useFilmCover.ts'

/** An ink above this opacity hides what lies under it. */
const HIDES = 0.5

type Ink = NonNullable<Layer['ink']>

/** An ink's colour as style sheets write it: they have CIELAB under D50 too. */
export function inkColour({ lab: [lightness, a, b] }: Ink): string {
  return `lab(${lightness} ${a} ${b})`
}

/** A layer's film as it would print in its ink; nothing where the film is not read yet. */
export function LayerPicture({
  film,
  ink,
  widthPx,
}: Readonly<{ film: string; ink: Ink; widthPx: number }>): ReactNode {
  const canvas = useInkCanvas(useFilmCover(film, { widthPx }), ink)
  return (
    <canvas
      ref={canvas}
      className={ink.opacity > HIDES ? 'layer-ink layer-hides' : 'layer-ink'}
      aria-hidden="true"
    />
  )
}

function useInkCanvas(
  cover: FilmCover | null,
  ink: Ink,
): React.RefObject<HTMLCanvasElement | null> {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const brush = canvas.current?.getContext('2d') ?? null
    if (canvas.current === null || brush === null || cover === null) return
    const { widthPx: across, heightPx: down } = cover
    canvas.current.width = across
    canvas.current.height = down
    const image = brush.createImageData(across, down)
    const [red, green, blue] = rgbOf(inkColour(ink))
    for (const [at, lies] of cover.ink.entries()) {
      image.data.set([red, green, blue, lies], 4 * at)
    }
    brush.putImageData(image, 0, 0)
  }, [cover, ink])
  return canvas
}

/** What the screen makes of a colour. */
function rgbOf(colour: string): readonly [number, number, number] {
  const probe = document.createElement('canvas')
  probe.width = 1
  probe.height = 1
  const brush = probe.getContext('2d')
  if (brush === null) return [0, 0, 0]
  brush.fillStyle = colour
  brush.fillRect(0, 0, 1, 1)
  const [red = 0, green = 0, blue = 0] = brush.getImageData(0, 0, 1, 1).data
  return [red, green, blue]
}

/** Sheets are drawn no finer than so: a few tiles of the film. */
export const PRINT_WIDTH_PX: number = 3 * TILE_SIDE
