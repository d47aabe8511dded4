import type { PageItem } from '../../formats/filmPage.ts'
import type { Path } from '../../formats/pagePath.ts'
import type { Thread, ThreadPoint } from '../cloth/threads.ts'
import { weave } from '../cloth/weave.ts'
import type { LightCloth } from '../lightCloth.ts'
import { type Box, clearedBox, filledBox } from './shapes.ts'

/** Pixels of the weave, which is drawn for pages, to a page's unit of length. */
const PX_PER_UNIT = 4.4
const THREAD_PX = 2
/** The bar at the dose, and the clear ground that it stands on. */
const BAR_PX = { pen: 5, halo: 12, above: 9 }

/**
 * A cloth in black alone, on a scale of doses: threads along end where marks close, threads across
 * are as long as the chance that the ground holds, a bar at the dose.
 *
 * @param unitMm how much larger than on A4 all is drawn
 * @param doseLu null where no dose is told
 */
export function clothItems(
  cloth: LightCloth,
  box: Box,
  { unitMm, doseLu }: Readonly<{ unitMm: number; doseLu: number | null }>,
): readonly PageItem[] {
  const mmPerPx = unitMm / PX_PER_UNIT
  const [widthPx, heightPx] = [box.widthMm / mmPerPx, box.heightMm / mmPerPx]
  const woven = weave(cloth, { widthPx, heightPx, rows: 'mixed' })
  const threads = [...woven.along, ...woven.across].map(
    (thread): PageItem => ({
      kind: 'stroke',
      widthMm: THREAD_PX * mmPerPx,
      corners: 'round',
      path: threadPath(thread, { ...box, mmPerPx }),
    }),
  )
  if (doseLu === null) return threads
  const xMm = box.xMm + mmPerPx * Math.min(widthPx, Math.max(0, woven.scale.xPx(doseLu)))
  const bar = (penPx: number): Box => ({
    xMm: xMm - (penPx * mmPerPx) / 2,
    yMm: box.yMm - BAR_PX.above * mmPerPx,
    widthMm: penPx * mmPerPx,
    heightMm: box.heightMm + 2 * BAR_PX.above * mmPerPx,
  })
  return [...threads, clearedBox(bar(BAR_PX.halo)), filledBox(bar(BAR_PX.pen))]
}

function threadPath(
  { points, bend }: Thread,
  { xMm, yMm, mmPerPx }: Readonly<{ xMm: number; yMm: number; mmPerPx: number }>,
): Path {
  const at = (point: ThreadPoint): Readonly<{ xMm: number; yMm: number }> => ({
    xMm: xMm + mmPerPx * point.xPx,
    yMm: yMm + mmPerPx * point.yPx,
  })
  return points.map((point, index) => {
    const end = at(point)
    const before = points[index - 1]
    if (before === undefined) return { kind: 'move', ...end }
    if (bend === undefined) return { kind: 'line', ...end }
    const [from, by] = [at(before), at(bend)]
    // the handles of a cubic curve lie two thirds of the way to a quadratic one's
    const handle = (one: typeof end): typeof end => ({
      xMm: one.xMm + (2 / 3) * (by.xMm - one.xMm),
      yMm: one.yMm + (2 / 3) * (by.yMm - one.yMm),
    })
    const [first, second] = [handle(from), handle(end)]
    return {
      kind: 'curve',
      firstXMm: first.xMm,
      firstYMm: first.yMm,
      secondXMm: second.xMm,
      secondYMm: second.yMm,
      ...end,
    }
  })
}
