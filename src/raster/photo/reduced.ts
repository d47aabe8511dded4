import type { View } from '../../core/inspection/lens.ts'
import { lightReader } from './lightCode.ts'
import type { LightPlane, PhotoLight, Sheet } from './photoLight.ts'

type Reducible = Pick<PhotoLight, 'widthPx' | 'heightPx' | 'values' | 'planes'> &
  Partial<Pick<Sheet, 'lent'>>

/**
 * The photo made smaller by a whole factor: means; what is left over at the right and below falls
 * away. Of a photo in a kernel they last until it is made smaller again.
 */
export function reduced(photo: Reducible, by: number): LightPlane {
  const { widthPx, heightPx, values } = photo
  if (by === 1) return plainLight(photo)
  const [across, down] = [Math.floor(widthPx / by), Math.floor(heightPx / by)]
  const machine = photo.planes ?? photo.lent
  if (machine !== undefined) {
    return { widthPx: across, heightPx: down, values: machine.reduced(by) }
  }
  const lightAt = lightReader(values)
  const out = new Float32Array(across * down)
  const sums = new Float32Array(across * by)
  const scale = Math.fround(1 / (by * by))
  for (let row = 0; row < down; row += 1) {
    sums.fill(0)
    for (let y = row * by; y < (row + 1) * by; y += 1) {
      for (let x = 0; x < sums.length; x += 1) sums[x] += lightAt(y * widthPx + x)
    }
    for (let x = 0; x < across; x += 1) {
      let sum = 0
      for (let at = x * by; at < (x + 1) * by; at += 1) sum = Math.fround(sum + sums[at])
      out[row * across + x] = sum * scale
    }
  }
  return { widthPx: across, heightPx: down, values: out }
}

function plainLight({ widthPx, heightPx, values }: Reducible): LightPlane {
  if (values instanceof Float32Array) return { widthPx, heightPx, values }
  const lightAt = lightReader(values)
  return { widthPx, heightPx, values: Float32Array.from(values, (_, at) => lightAt(at)) }
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
