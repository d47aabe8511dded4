import { type ReactNode, useState } from 'react'
import type { Artwork, MadeFilm } from '../../api/artwork.ts'
import { layersOfPlates } from '../../core/ticket/plateLayer.ts'
import { filmRoute, Link } from '../router.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import '../signs/progress.css'
import './making.css'
import { FILMS_WORDS, percentText } from './filmsWords.ts'

export type MakingProps = Readonly<{
  artwork: Artwork
  message: string | null
  /** Null: the plan cannot be made as it stands. */
  onMake: (() => void) | null
  onStop: () => void
  onShop: (film: string, layer: string | null) => void
  /** What stands beside the act. */
  beside: ReactNode
}>

/** The one act of the page, how far it is, and what came of it. */
export function Making(props: MakingProps): ReactNode {
  const { artwork, message, onMake, onStop, onShop, beside } = props
  const { making, made } = artwork
  const isUnderWay = making?.status === 'waiting' || making?.status === 'making'
  return (
    <div className="films-making">
      <div aria-live="polite">
        {isUnderWay && <HowFar making={making} />}
        {making?.status === 'stopped' && <p>{FILMS_WORDS.stopped}</p>}
        {making?.status === 'failed' && <p className="upload-refused">{making.message}</p>}
        {message !== null && <p className="upload-refused">{message}</p>}
      </div>
      <div className="films-acts">
        {isUnderWay ? (
          <SecondAct onPress={onStop}>{FILMS_WORDS.stop}</SecondAct>
        ) : (
          <Button busy={onMake === null} onPress={() => onMake?.()}>
            {made === null ? FILMS_WORDS.make : FILMS_WORDS.makeAgain}
          </Button>
        )}
        {!isUnderWay && beside}
      </div>
      {made !== null && <Made artwork={artwork} made={made} onShop={onShop} />}
    </div>
  )
}

function HowFar({ making }: Readonly<{ making: NonNullable<Artwork['making']> }>): ReactNode {
  const { status, progressShare, words } = making
  const says =
    status === 'waiting' || words === null
      ? FILMS_WORDS.waiting
      : FILMS_WORDS.making(words, `${Math.floor(20 * progressShare) * 5} %`)
  return (
    <div className="how-far">
      <p>{says}</p>
      <progress value={progressShare} max={1} aria-label={says} />
    </div>
  )
}

function Made({
  artwork,
  made,
  onShop,
}: Pick<MakingProps, 'artwork' | 'onShop'> &
  Readonly<{ made: NonNullable<Artwork['made']> }>): ReactNode {
  const isNested = sheetNests(made.plan['sheet'])
  const [first] = made.films
  const isEarlier = JSON.stringify(sorted(made.plan)) !== JSON.stringify(sorted(artwork.plan))
  return (
    <section aria-label={FILMS_WORDS.made}>
      <h2>{FILMS_WORDS.made}</h2>
      {isEarlier && <p className="small">{FILMS_WORDS.earlierPlan}</p>}
      <ul className="made-films">
        {made.films.map((film) => (
          <MadeRow key={film.id} film={film} artwork={artwork} hasPdf={!isNested} onShop={onShop} />
        ))}
      </ul>
      {isNested && first !== undefined && (
        <p>
          <a className="second-act" href={first.pdf}>
            <span>{FILMS_WORDS.nestedPdf}</span>
          </a>
        </p>
      )}
      <p>
        <a className="second-act" href={made.proof}>
          <span>{FILMS_WORDS.proof}</span>
        </a>
      </p>
      <p className="small">{FILMS_WORDS.trueSize}</p>
    </section>
  )
}

function sheetNests(sheet: unknown): boolean {
  return sheet !== null && typeof sheet === 'object' && 'nest' in sheet && sheet.nest === true
}

/** The same plan whatever order its words stand in. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== null)
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .map(([key, inner]) => [key, sorted(inner)]),
  )
}

function MadeRow({
  film,
  artwork: { ticket, made },
  hasPdf,
  onShop,
}: Pick<MakingProps, 'artwork' | 'onShop'> &
  Readonly<{ film: MadeFilm; hasPdf: boolean }>): ReactNode {
  const [isBusy, setBusy] = useState(false)
  const layers = (ticket?.layers ?? []).map(({ id, shortName, ink }) => ({
    id,
    shortName,
    ink: ink?.name ?? null,
  }))
  const plates = made?.films.map(({ ink }) => ink) ?? []
  const layer = layersOfPlates(layers, { plates })[film.place - 1] ?? null
  return (
    <li>
      <strong>{FILMS_WORDS.ink(film.place, film.ink)}</strong>
      {film.coverageShare === 0 ? (
        <strong>{FILMS_WORDS.emptyMade}</strong>
      ) : (
        <span className="soft">{FILMS_WORDS.coverage(percentText(film.coverageShare))}</span>
      )}
      <span className="made-files">
        {hasPdf && (
          <a className="second-act" href={film.pdf}>
            <span>{FILMS_WORDS.pdf}</span>
          </a>
        )}
        <a className="second-act" href={film.tiff}>
          <span>{FILMS_WORDS.tiff}</span>
        </a>
      </span>
      {film.film === null ? (
        <SecondAct
          onPress={() => {
            if (isBusy) return
            setBusy(true)
            onShop(film.id, layer?.id ?? null)
          }}
        >
          {layer === null ? FILMS_WORDS.intoShop : FILMS_WORDS.intoLayer(layer.shortName)}
        </SecondAct>
      ) : (
        <Link to={filmRoute(film.film.id)} className="second-act">
          <span>{FILMS_WORDS.inShop}</span>
        </Link>
      )}
    </li>
  )
}
