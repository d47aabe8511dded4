import type { View } from '../../core/inspection/lens.ts'
import type { PhotoLight, Sheet } from './photoLight.ts'

type Reducible = Readonly<{ widthPx: number; heightPx: number; values: Float32Array }> &
  Partial<Pick<PhotoLight, 'planes'> & Pick<Sheet, 'lent'>>

/** The photo made smaller by a whole factor: means; what is left over at the right and below falls away. */
export function reduced(photo: Reducible, by: number): PhotoLight {
  const { widthPx, heightPx, values } = photo
  const [across, down] = [Math.floor(widthPx / by), Math.floor(heightPx / by)]
  const machine = photo.planes ?? photo.lent
  if (machine !== undefined) {
    return { widthPx: across, heightPx: down, values: machine.reduced(by) }
  }
  const out = new Float32Array(across * down)
  const scale = 1 / (by * by)
  for (let y = 0; y < down * by; y += 1) {
    const to = Math.floor(y / by) * across
    let from = y * widthPx
    for (let x = 0; x < across; x += 1) {
      let sum = 0
      for (const end = from + by; from < end; from += 1) sum += values[from]
      out[to + x] += sum * scale
    }
  }
  return { widthPx: across, heightPx: down, values: out }
}

/** The same view of the plane by the smaller photo. */
export function reducedView({ homography, lens }: View, by: number): View {
  return {
    homography: homography.map((entry, at) => (at < 6 ? entry / by : entry)),
    lens: {
      middle: { x: lens.middle.x / by, y: lens.middle.y / by },
      reachPx: lens.reachPx / by,
      bend: lens.bend,
    },
  }
}
