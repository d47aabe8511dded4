import type { ArtworkList, Artwork as ArtworkTold } from '../../api/artwork.ts'
import { artworkProofPath, madeFilmPath } from '../../api/paths.ts'
import { isFailure } from '../../core/failure.ts'
import { type Artwork, type ArtworkFilm, artworkOf, filmsOfArtwork } from '../../store/artworks.ts'
import type { Database } from '../../store/database/database.ts'
import { fabrics } from '../../store/fabrics.ts'
import { filmOf } from '../../store/films.ts'
import { type Ink, inks } from '../../store/inks.ts'
import type { Job } from '../../store/jobs.ts'
import { theShop } from '../../store/shop.ts'
import { ticketOf, tickets } from '../../store/tickets.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import type { Told } from '../http/route.ts'
import type { ShopService } from '../shop/shopService.ts'
import { inkTold } from '../tickets/ticketAnswer.ts'
import { isForOthers, type Making } from './artworkJobs.ts'
import type { Made, Seen } from './artworkWork.ts'
import { printsKnown } from './printsKnown.ts'

const MOST_TICKETS = 300

/** Artwork as the contract tells it; it is looked at by the way, where nobody did. */
export async function artworkAnswer(
  { store: { database }, artwork: jobs }: ShopService,
  artwork: Artwork,
): Promise<Told<ArtworkTold>> {
  jobs.care(artwork)
  const { id, ticketId, fabricId } = artwork
  const seen = artwork.seen as Seen | null
  const known = await inks(database)
  const { toneCurves, inkLimit } = await printsKnown(database)
  const all = await tickets(database, { limit: MOST_TICKETS })
  // what was made is read after how far it is: who hears that it is done has its films
  const making = makingOf(await jobs.newest(id), jobs.making(id))
  const made = await madeTold(database, await artworkOf(database, id))
  return {
    kind: 'artwork',
    demo: (await theShop(database)).kind === 'demo',
    ...headOf(artwork),
    warnings: seen?.warnings ?? [],
    ticket: ticketId === null ? null : await ticketTold(database, ticketId, known),
    proportion: seen?.proportion ?? null,
    widthMm: seen?.widthMm ?? null,
    picture: seen === null ? null : pictureTold(artwork, seen),
    looksAgain: artwork.refusal === null && isForOthers(artwork),
    plan: artwork.plan as PlanFile | null,
    fabric: fabricId,
    fabrics: (await fabrics(database)).map(
      ({ id: fabric, name, threadsPerCm, threadUm, dyed }) => ({
        id: fabric,
        name: dyed ? `${name} dyed` : name,
        threadsPerCm,
        threadUm,
        dyed,
      }),
    ),
    inks: known.map(inkTold),
    toneCurves,
    inkLimit,
    statesCmyk: seen?.statesCmyk === true,
    tickets: all.map(({ ticket }) => ({ id: ticket.id, name: `${ticket.code} ${ticket.name}` })),
    making,
    made,
  }
}

function pictureTold({ samplesBlob }: Artwork, { picture, passing }: Seen): ArtworkTold['picture'] {
  const { space = 'rgb', passing: planes = 0, hasMore: _, ...rest } = picture
  const names = passing?.inks ?? []
  const own = planes === names.length ? [...names] : []
  return { ...rest, space, passing: own, version: (samplesBlob ?? '').slice(0, 12) }
}

/** All artwork, in short. */
export async function artworksTold(
  database: Database,
  all: readonly Artwork[],
): Promise<Told<ArtworkList>> {
  const known = await tickets(database, { limit: MOST_TICKETS })
  const told = []
  for (const artwork of all) {
    const of = known.find(({ ticket }) => ticket.id === artwork.ticketId)?.ticket
    const ticket = of === undefined ? null : { id: of.id, name: `${of.code} ${of.name}` }
    const films = (await filmsOfArtwork(database, artwork.id)).length
    told.push({ ...headOf(artwork), ticket, films })
  }
  return { kind: 'artworks', artworks: told }
}

function headOf({
  id,
  name,
  seen,
  refusal,
}: Artwork): Pick<ArtworkTold, 'id' | 'name' | 'status' | 'message'> {
  const status = seen !== null ? 'ready' : refusal === null ? 'waiting' : 'failed'
  return { id, name, status, message: refusal }
}

async function ticketTold(
  database: Database,
  id: string,
  known: readonly Ink[],
): Promise<ArtworkTold['ticket']> {
  const { ticket, layers } = await ticketOf(database, id)
  return {
    id,
    name: ticket.name,
    code: ticket.code,
    layers: layers.map(({ id: layer, place, shortName, inkId }) => {
      const ink = known.find((each) => each.id === inkId)
      return { id: layer, place, shortName, ink: ink === undefined ? null : inkTold(ink) }
    }),
  }
}

const STATES = {
  queued: 'waiting',
  running: 'making',
  done: 'done',
  failed: 'failed',
  cancelled: 'stopped',
} as const

function makingOf(job: Job | null, now: Making | null): ArtworkTold['making'] {
  if (job === null) return null
  const progressShare =
    job.state === 'running' ? (now?.share ?? job.progressShare) : job.progressShare
  return {
    status: STATES[job.state],
    progressShare,
    words: job.state === 'running' ? now?.words || job.progressWords : null,
    message: job.trouble,
  }
}

async function madeTold(
  database: Database,
  { id, made: kept, proofBlob }: Artwork,
): Promise<Told<ArtworkTold>['made']> {
  const made = kept as Made | null
  if (made === null) return null
  const films = await filmsOfArtwork(database, id)
  return {
    ...made,
    films: await Promise.all(films.map((film) => filmTold(database, film))),
    proof: `${artworkProofPath(id)}?${(proofBlob ?? '').slice(0, 8)}`,
  }
}

async function filmTold(
  database: Database,
  { id, artworkId, place, ink, coverageShare, filmId }: ArtworkFilm,
): Promise<NonNullable<ArtworkTold['made']>['films'][number]> {
  const film =
    filmId === null
      ? null
      : await filmOf(database, filmId).catch((cause: unknown) => {
          if (isFailure(cause, 'not found')) return null
          throw cause
        })
  return {
    id,
    place,
    ink,
    coverageShare,
    pdf: madeFilmPath(artworkId, { film: id, file: 'pdf' }),
    tiff: madeFilmPath(artworkId, { film: id, file: 'tif' }),
    film: film && { id: film.id, name: film.name },
  }
}
