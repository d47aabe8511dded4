import { layerSaid } from '../../core/ticket/codes.ts'
import type { Database } from '../../store/database/database.ts'
import { layerOfFilm } from '../../store/tickets.ts'

/** A film’s name as it stands on papers: before it the short name and ink of the layer that it is for. */
export async function layerNamed(
  database: Database,
  { filmId, name }: Readonly<{ filmId: string | null | undefined; name: string }>,
): Promise<string> {
  const layer = await layerOfFilm(database, filmId ?? null)
  return layer === null ? name : layerSaid(layer, name)
}
