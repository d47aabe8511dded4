import { Failure } from '../../core/failure.ts'
import type { Database } from '../../store/database/database.ts'
import { screenOf } from '../../store/screens.ts'
import { setLayerScreen } from '../../store/tickets.ts'
import { layerWith } from './screensFor.ts'

/**
 * Puts a screen on a layer, or takes it off.
 *
 * @throws Failure 'not found' for a screen that the shop does not have; 'conflict' where it is torn,
 * lost, or on another layer that is not printed yet
 */
export async function giveScreen(
  database: Database,
  { layerId, screenId }: Readonly<{ layerId: string; screenId: string | null }>,
): Promise<void> {
  if (screenId !== null) {
    const { tag, state } = await screenOf(database, screenId)
    if (state === 'torn' || state === 'lost') {
      const message = `Screen ${tag} is ${state}: choose another.`
      throw new Failure('conflict', message, { field: 'screen' })
    }
    const other = await layerWith(database, { screenId, but: layerId })
    if (other !== null) {
      const message = `Screen ${tag} is on layer ${other}: choose another, or take it off there first.`
      throw new Failure('conflict', message, { field: 'screen' })
    }
  }
  await setLayerScreen(database, { layerId, screenId })
}
