import { Failure } from '../../core/failure.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'

/** The artwork on the film. */
export type FilmSize = Readonly<{
  widthMm: number
  heightMm: number
  widthPx: number
  heightPx: number
  pixelUm: number
}>

const MOST_PIXELS = 1.5e9
const MOST_SIDE_PX = 200_000
const MOST_SIDE_MM = 5000

/**
 * The film's true size, and the whole pixels nearest to it.
 *
 * @param artwork its proportion, width over height, and its own width where it states one
 * @throws Failure where neither plan nor artwork says how large, or it is too large
 */
export function filmSize(
  { size, resolutionDpi }: Pick<FilmPlan, 'size' | 'resolutionDpi'>,
  { proportion, widthMm: own }: Readonly<{ proportion: number; widthMm: number | null }>,
): FilmSize {
  const widthMm =
    size.kind === 'width'
      ? size.widthMm
      : size.kind === 'height'
        ? size.heightMm * proportion
        : own === null
          ? refuse(
              'widthMm',
              'The artwork does not state its size; give widthMm or heightMm in the plan.',
            )
          : size.scale * own
  const heightMm = size.kind === 'height' ? size.heightMm : widthMm / proportion
  const pixelUm = 25_400 / resolutionDpi
  const px = (mm: number): number => Math.max(1, Math.round((1000 * mm) / pixelUm))
  const [widthPx, heightPx] = [px(widthMm), px(heightMm)]
  const sides = `${Number(widthMm.toFixed(1))} x ${Number(heightMm.toFixed(1))} mm`
  if (Math.max(widthMm, heightMm) > MOST_SIDE_MM || Math.min(widthMm, heightMm) < 1) {
    refuse(
      'scale',
      `The film would be ${sides}, and its sides are 1 to 5000 mm; change the plan's size.`,
    )
  }
  if (widthPx * heightPx > MOST_PIXELS || Math.max(widthPx, heightPx) > MOST_SIDE_PX) {
    const message = `A film of ${sides} at ${resolutionDpi} dpi has ${Math.round((widthPx * heightPx) / 1e6)} million pixels, and 1500 million are the most; lower resolutionDpi or the size.`
    throw new Failure('too large', message, { field: 'resolutionDpi' })
  }
  return { widthMm, heightMm, widthPx, heightPx, pixelUm }
}

function refuse(field: string, message: string): never {
  throw new Failure('wrong input', message, { field })
}
