import type { ShopFilm } from '../../api/artwork.ts'
import { Failure } from '../../core/failure.ts'
import { layersOfPlates } from '../../core/ticket/plateLayer.ts'
import { type Artwork, filmsOfArtwork, nameShopFilm } from '../../store/artworks.ts'
import { inTransaction } from '../../store/database/database.ts'
import { addFilm, type Film } from '../../store/films.ts'
import { ticketOf } from '../../store/tickets.ts'
import { baseAsked, mediumAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import { inkedLayers } from './artworkThings.ts'
import { fileStem } from './madeNames.ts'

/**
 * A made film becomes a film of the shop like any other: it is read and forecast, before it is
 * printed. Of a ticket's artwork it is the film of the layer of its ink, or of the layer asked for.
 *
 * @throws Failure 'not found' for a film, layer, base or medium that is not there
 */
export async function filmOfMade(
  service: ShopService,
  artwork: Artwork,
  { film: id, layer, base, medium }: ShopFilm & Readonly<{ film: string }>,
): Promise<Film> {
  const { store, jobs, now } = service
  const made = (await filmsOfArtwork(store.database, artwork.id)).find((film) => film.id === id)
  if (made === undefined) {
    throw new Failure('not found', 'There is no such film any more: the films were made anew.')
  }
  const records = await service.records()
  const baseId = base === undefined ? records.usualBase.id : baseAsked(records, base).id
  const mediumId = medium === undefined ? null : mediumAsked(records, medium).id
  const layerId = await layerFor(service, artwork, { place: made.place, layer })
  const setup = await service.usualSetup({ baseId })
  const film = await inTransaction(store.database, async (inner) => {
    const taken = await addFilm(
      inner,
      {
        kind: 'made',
        name: `${artwork.name}, ${made.ink}`,
        fileName: `${fileStem(made)}.tif`,
        originalBlob: made.tiffBlob,
        layerId,
        baseId,
        mediumId,
      },
      { at: now() },
    )
    await jobs.queue(inner, { filmId: taken.id, setup })
    await nameShopFilm(inner, made.id, { filmId: taken.id })
    return taken
  })
  service.changed()
  jobs.wake()
  return film
}

/** The layer asked for; else the one that this plate is for, as its label says. */
async function layerFor(
  { store }: ShopService,
  { ticketId, id }: Artwork,
  { place, layer }: Readonly<{ place: number; layer: string | undefined }>,
): Promise<string | null> {
  if (ticketId === null) {
    if (layer === undefined) return null
    throw new Failure('not found', 'This artwork is on no ticket: put it on one first.', {
      field: 'layer',
    })
  }
  const { layers } = await ticketOf(store.database, ticketId)
  if (layer !== undefined) {
    const asked = layers.find((each) => each.id === layer)
    if (asked !== undefined) return asked.id
    const message =
      'There is no such layer on the ticket of this artwork: choose one that is there.'
    throw new Failure('not found', message, { field: 'layer' })
  }
  const films = await filmsOfArtwork(store.database, id)
  const plates = films.map(({ ink }) => ink)
  return (
    layersOfPlates(await inkedLayers(store.database, ticketId), { plates })[place - 1]?.id ?? null
  )
}
