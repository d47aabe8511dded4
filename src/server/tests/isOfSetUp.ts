import type { Reading } from '../../store/readings.ts'
import type { SetUp } from '../shop/setUpAsked.ts'

/** Of this fabric and emulsion, under this unit. */
export function isOfSetUp(reading: Reading, { exposure, fabric, batch }: SetUp): boolean {
  return (
    reading.unitId === exposure.unit.id &&
    reading.fabricId === fabric.id &&
    (batch === null || reading.emulsionId === batch.emulsionId)
  )
}
