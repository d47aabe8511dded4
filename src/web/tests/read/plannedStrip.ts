import type { TestDesign } from '../../../api/tests.ts'
import { keep, kept } from '../../kept.ts'

/** The strip that was planned last on this device, so that its doses need not be typed again. */
export type PlannedStrip = Readonly<{
  on: string
  medium: string
  fabric: string
  batch: string
  unit: string
  dosesLu: readonly number[]
}>

const KEY = 'yellowroom.strip'

export function keepStrip({ asked, bands }: TestDesign, on: string): void {
  const strip: PlannedStrip = {
    on,
    medium: asked.medium.id,
    fabric: asked.fabric.id,
    batch: asked.batch?.id ?? '',
    unit: asked.unit.id,
    dosesLu: bands.map(({ doseLu }) => doseLu),
  }
  keep(KEY, JSON.stringify(strip))
}

/** Null when none was planned here, or what is kept cannot be read. */
export function keptStrip(): PlannedStrip | null {
  try {
    const strip = JSON.parse(kept(KEY) ?? 'null') as Partial<PlannedStrip> | null
    const { on, medium, fabric, batch, unit, dosesLu } = strip ?? {}
    if (on === undefined || medium === undefined || dosesLu === undefined) return null
    return { on, medium, dosesLu, fabric: fabric ?? '', batch: batch ?? '', unit: unit ?? '' }
  } catch {
    return null
  }
}
