import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import { fabricGeometry } from '../../core/fabric/geometry.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import { isFailure } from '../../core/failure.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { perCm, um } from '../../core/units/quantity.ts'
import { type FilmSize, filmSize } from '../../workflow/makeFilms/filmSize.ts'
import { withShopTones } from '../../workflow/makeFilms/shopTones.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import '../film/film.css'
import '../film/upload.css'
import { Standing } from '../frame/Standing.tsx'
import { filmRoute, Link, ROUTES, ticketRoute, useWay } from '../router.tsx'
import { SecondAct } from '../signs/Button.tsx'
import '../signs/woodFrame.css'
import '../tests/entry.css'
import { FilmsDesk } from './FilmsDesk.tsx'
import './films.css'
import { FILMS_WORDS } from './filmsWords.ts'
import { planRead, withOwnInks } from './planFile.ts'
import { type ArtworkAsked, useArtwork } from './useArtwork.ts'
import { usePrints } from './usePrints.ts'

/** Artwork and the films that are to be printed of it. */
export function ArtworkPage({ artwork: id }: Readonly<{ artwork: string }>): ReactNode {
  const asked = useArtwork(id)
  const { artwork, askAgain } = asked
  const { go } = useWay()
  const away = async (): Promise<void> => {
    if (await asked.remove()) go(ROUTES.films, 'replace')
  }
  const isReady = artwork !== null && artwork.picture !== null && artwork.plan !== null
  return (
    <div className="films">
      {artwork !== null && <About artwork={artwork} />}
      {isReady ? (
        <Wanted key={artwork.id} asked={asked} artwork={artwork} />
      ) : (
        <>
          <h1>{FILMS_WORDS.title}</h1>
          <Standing asked={asked.asked} working={FILMS_WORDS.fetching} onAgain={askAgain} />
          {artwork?.status === 'waiting' && <p aria-live="polite">{FILMS_WORDS.looking}</p>}
          {artwork?.status === 'failed' && (
            <p className="upload-refused" role="alert">
              {artwork.message}
            </p>
          )}
        </>
      )}
      <p className="films-ways">
        <Link to={ROUTES.films} className="second-act">
          <span>{FILMS_WORDS.another}</span>
        </Link>
        {artwork !== null && <SecondAct onPress={() => void away()}>{FILMS_WORDS.away}</SecondAct>}
      </p>
    </div>
  )
}

function About({ artwork }: Readonly<{ artwork: Artwork }>): ReactNode {
  const { name, ticket, warnings, demo } = artwork
  return (
    <div className="films-about">
      <p>
        <strong>{name}</strong>
        {ticket !== null && (
          <>
            {', '}
            <Link to={ticketRoute(ticket.id)} className="word-link">
              {`${ticket.code} ${ticket.name}`}
            </Link>
          </>
        )}
        {demo && <span className="soft">{` ${FILMS_WORDS.demo}`}</span>}
      </p>
      {warnings.map((words) => (
        <p key={words} className="small">
          {words}
        </p>
      ))}
    </div>
  )
}

const SAVE_MS = 700

/** Holds the plan as it is being changed, and keeps it in the shop. */
function Wanted({
  asked,
  artwork,
}: Readonly<{ asked: ArtworkAsked; artwork: Artwork }>): ReactNode {
  const { go } = useWay()
  const [file, setFile] = useState<PlanFile>(artwork.plan ?? {})
  const [fabric, setFabric] = useState(artwork.fabric)
  // asked after again and again they are the same until somebody measures
  const known = useMemo(() => artwork.toneCurves, [JSON.stringify(artwork.toneCurves)])
  const resolved = useMemo(() => withShopTones(file, { known, fabric }), [file, fabric, known])
  const read = useMemo(
    () => sized(resolved, artwork),
    [resolved, artwork.proportion, artwork.widthMm],
  )
  const prints = usePrints(asked.askAgain)
  const [good, setGood] = useState(read)
  if (read.wrong === null && read !== good) setGood(read)
  const { plan, size } = read.wrong === null ? read : good
  useSaved(read.wrong === null ? file : null, (next) => void asked.change({ plan: next }))
  const cloth = artwork.fabrics.find(({ id }) => id === fabric) ?? null
  const weave = useMemo(
    () =>
      cloth === null
        ? null
        : { threadsPerCm: perCm(cloth.threadsPerCm), threadUm: um(cloth.threadUm) },
    [cloth?.threadsPerCm, cloth?.threadUm],
  )
  if (plan === null || size === null) {
    return (
      <>
        <h1>{FILMS_WORDS.title}</h1>
        <p className="upload-refused" role="alert">
          {read.wrong?.message}
        </p>
      </>
    )
  }
  const intoShop = async (film: string, layer: string | null): Promise<void> => {
    const taken = await asked.intoShop(film, layer)
    if (taken !== null) go(filmRoute(taken.id))
  }
  return (
    <FilmsDesk
      artwork={{ ...artwork, fabric, plan: resolved }}
      prints={prints}
      file={withOwnInks(file, plan)}
      plan={plan}
      size={size}
      wrong={read.wrong}
      fabric={weave === null ? null : { weave, dyed: cloth?.dyed === true }}
      usual={usualOf(weave)}
      message={asked.message}
      onPlan={setFile}
      onFabric={(next) => {
        setFabric(next)
        void asked.change({ fabric: next })
      }}
      onMake={async () => {
        await asked.change({ plan: file })
        await asked.make()
      }}
      onStop={() => void asked.stop()}
      onShop={(film, layer) => void intoShop(film, layer)}
    />
  )
}

type Sized =
  | Readonly<{ plan: FilmPlan; size: FilmSize; wrong: null }>
  | Readonly<{
      plan: null
      size: null
      wrong: Readonly<{ message: string; field: string | null }>
    }>

/** A plan and how large its films are. */
function sized(file: PlanFile, { proportion, widthMm }: Artwork): Sized {
  const { plan, wrong } = planRead(file)
  if (plan === null) return { plan, size: null, wrong }
  try {
    return { plan, size: filmSize(plan, { proportion: proportion ?? 1, widthMm }), wrong: null }
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    const { message, field = null } = cause
    return { plan: null, size: null, wrong: { message, field } }
  }
}

function usualOf(weave: Weave | null): Readonly<{ rulingPerCm: number; dotUm: number }> {
  if (weave === null) return { rulingPerCm: 18, dotUm: 150 }
  const { rulingPerCm, pitchUm } = fabricGeometry(weave)
  return { rulingPerCm: rulingPerCm.usual, dotUm: pitchUm + weave.threadUm }
}

/** Keeps a plan when the hand rests. @param file null: nothing that can be kept */
function useSaved(file: PlanFile | null, save: (file: PlanFile) => void): void {
  const kept = useRef(file)
  const keep = useRef(save)
  useEffect(() => {
    keep.current = save
  })
  useEffect(() => {
    if (file === null || file === kept.current) return undefined
    const timer = setTimeout(() => {
      kept.current = file
      keep.current(file)
    }, SAVE_MS)
    return () => clearTimeout(timer)
  }, [file])
}
