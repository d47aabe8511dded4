import type { Database } from '../../store/database/database.ts'

/** A film’s name as it stands on papers: before it the short name of the layer that it is for. */
export async function layerNamed(
  database: Database,
  { filmId, name }: Readonly<{ filmId: string | null | undefined; name: string }>,
): Promise<string> {
  if (filmId === null || filmId === undefined) return name
  const row = await database
    .selectFrom('film')
    .innerJoin('layer', 'layer.id', 'film.layerId')
    .where('film.id', '=', filmId)
    .select('layer.shortName')
    .executeTakeFirst()
  return row === undefined ? name : `${row.shortName}, ${name}`
}
