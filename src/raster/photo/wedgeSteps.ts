import type { Point } from '../../core/inspection/homography.ts'
import { lightReader } from './lightCode.ts'
import type { PhotoLight } from './photoLight.ts'

/** Light of a wedge's step in a photo. */
export type StepLight = Readonly<{
  /** Its middle, in photo pixels. */
  at: Point
  light: number
  /** Standard deviation of that mean; neighbouring pixels of a photo are not independent. */
  sd: number
  /** Standard deviation of its pixels. */
  grain: number
}>

/** The part of a step, along the wedge and across, that is looked at: away from its edges. */
const CORE = { along: 0.5, across: 0.5 }
/** So many pixels of a photo tell as much as one of their own would. */
const PIXELS_ALIKE = 9

/**
 * Light of each step of a wedge that lies between two points. They may be the ends of the wedge or
 * the middles of its first and last step: whichever leaves the steps more even.
 *
 * @param ends middles of its two short sides or of its end steps, in photo pixels, the clear end first
 * @returns null where it reaches beyond the photo
 */
export function wedgeSteps(
  photo: PhotoLight,
  { ends, count }: Readonly<{ ends: readonly [Point, Point]; count: number }>,
): readonly StepLight[] | null {
  const whole = layout(photo, {
    ends,
    count,
    first: 0.5 / count,
    pitch: 1 / count,
  })
  const middles = layout(photo, {
    ends,
    count,
    first: 0,
    pitch: 1 / (count - 1),
  })
  if (whole === null || middles === null) return whole?.steps ?? middles?.steps ?? null
  return whole.uneven <= middles.uneven ? whole.steps : middles.steps
}

type Layout = Readonly<{ steps: readonly StepLight[]; uneven: number }>

function layout(
  photo: PhotoLight,
  {
    ends: [start, end],
    count,
    first,
    pitch,
  }: Readonly<{
    ends: readonly [Point, Point]
    count: number
    first: number
    pitch: number
  }>,
): Layout | null {
  const [dx, dy] = [end.x - start.x, end.y - start.y]
  const length = Math.hypot(dx, dy)
  const [alongX, alongY] = [dx / length, dy / length]
  const half = {
    along: Math.max(0.5, (CORE.along * pitch * length) / 2),
    across: Math.max(0.5, (CORE.across * pitch * length) / 2),
  }
  const lightAt = lightReader(photo.values)
  const steps: StepLight[] = []
  let uneven = 0
  for (let step = 0; step < count; step += 1) {
    const share = first + step * pitch
    const at = { x: start.x + share * dx, y: start.y + share * dy }
    let [n, sum, squares] = [0, 0, 0]
    for (let a = -half.along; a <= half.along; a += 1) {
      for (let b = -half.across; b <= half.across; b += 1) {
        const x = Math.floor(at.x + a * alongX - b * alongY)
        const y = Math.floor(at.y + a * alongY + b * alongX)
        if (x < 0 || y < 0 || x >= photo.widthPx || y >= photo.heightPx) return null
        const light = lightAt(y * photo.widthPx + x)
        n += 1
        sum += light
        squares += light * light
      }
    }
    const light = sum / n
    const variance = Math.max(0, squares / n - light * light)
    uneven += Math.sqrt(variance) / Math.max(light, 1e-4)
    steps.push({
      at,
      light,
      grain: Math.sqrt(variance),
      sd: Math.sqrt((variance * PIXELS_ALIKE) / n),
    })
  }
  return { steps, uneven }
}
