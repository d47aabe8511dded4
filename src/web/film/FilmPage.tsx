import { type ReactNode, useMemo, useState } from 'react'
import type { Film, FilmForecast } from '../../api/films.ts'
import type { LightAnswer } from '../../api/light.ts'
import { doseText } from '../figures.ts'
import { Standing } from '../frame/Standing.tsx'
import { withPlace } from '../place/placeQuery.ts'
import { Link, ROUTES, useWay } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Cloth } from '../signs/Cloth.tsx'
import '../signs/progress.css'
import { TenFrames } from '../signs/TenFrames.tsx'
import { ScreensForFilm } from '../ticket/choose/ChooseScreen.tsx'
import { ONE_COLUMN, useMedia } from '../useMedia.ts'
import { LIGHT_WORDS } from '../words.ts'
import { ByPhoto } from './ByPhoto.tsx'
import './film.css'
import { FilmPicture } from './FilmPicture.tsx'
import { Findings } from './Findings.tsx'
import { filmCloth, holdsFromLu, screensInTenAt } from './filmCloth.ts'
import { FILM_WORDS } from './filmWords.ts'
import { lengthText, shareSays, tens, troubleSays } from './findingSays.ts'
import { Looks } from './Looks.tsx'
import { Signs } from './Signs.tsx'
import { Underdrawing } from './Underdrawing.tsx'
import { UseDose } from './UseDose.tsx'
import type { Look } from './useCanvasPicture.ts'
import { useFilm } from './useFilm.ts'

/** Which marks of a film open at a dose. */
export function FilmPage({ film: id }: Readonly<{ film: string }>): ReactNode {
  const { search } = useWay()
  const { film, forecast, light, askAgain } = useFilm(id, search)
  const isShown = film.answer?.pixelUm !== null && (forecast.answer?.pyramid ?? null) !== null
  return (
    <div className="film">
      {film.answer !== null && forecast.answer !== null && isShown ? (
        <Forecast
          film={film.answer}
          forecast={forecast.answer}
          light={light.answer}
          onAnswered={askAgain}
          standing={
            <Standing
              asked={forecast.now === 'here' ? light : forecast}
              working={FILM_WORDS.finding}
              onAgain={askAgain}
            />
          }
        />
      ) : (
        <div className="film-words">
          <h1>{FILM_WORDS.title}</h1>
          {film.answer !== null && <Progress film={film.answer} forecast={forecast.answer} />}
          <Standing
            asked={film.now === 'here' ? forecast : film}
            working={FILM_WORDS.fetching}
            onAgain={askAgain}
          />
        </div>
      )}
    </div>
  )
}

/** While a film is being read, and when it could not be. */
function Progress({
  film,
  forecast,
}: Readonly<{ film: Film; forecast: FilmForecast | null }>): ReactNode {
  const failed =
    film.status === 'failed'
      ? film.message
      : forecast?.status === 'failed'
        ? forecast.message
        : null
  if (failed !== null) {
    return (
      <>
        <p className="film-failed" role="alert">
          {failed}
        </p>
        <p>
          <Link to={ROUTES.upload} className="second-act">
            <span>{FILM_WORDS.darker}</span>
          </Link>
        </p>
      </>
    )
  }
  const under = film.status === 'ready' ? forecast : film
  const share = under?.progressShare ?? 0
  return (
    <div className="film-progress">
      <p>{film.name}</p>
      <p aria-live="polite">{share > 0 ? FILM_WORDS.reading(tens(share)) : FILM_WORDS.waiting}</p>
      <progress value={share} max={1} aria-label={film.name} />
    </div>
  )
}

/** Findings shown at first. */
const FEW = 3

type ForecastProps = Readonly<{
  film: Film
  forecast: FilmForecast
  light: LightAnswer | null
  onAnswered: () => void
  standing: ReactNode
}>

function Forecast({ film, forecast, light, onAnswered, standing }: ForecastProps): ReactNode {
  const units = useUnits()
  const [chosenLu, setChosenLu] = useState<number | null>(null)
  const [look, setLook] = useState<Look>('what will open')
  const oneColumn = useMedia(ONE_COLUMN)
  const [focused, setFocused] = useState<number | null>(oneColumn ? null : 1)
  const { search } = useWay()
  const size = useFilmSize(film)
  const cloth = useMemo(() => filmCloth(forecast, light?.cloth ?? null), [forecast, light])
  const countsIn = light?.countsIn ?? 'light units'
  const unitWord = LIGHT_WORDS.units[countsIn]
  const firstLu = light?.dose.value ?? Math.sqrt(forecast.holdDoseLu * forecast.throughDoseLu)
  const doseLu = chosenLu ?? Math.min(cloth.highLu, Math.max(cloth.lowLu, Math.round(firstLu)))
  const value = doseText(doseLu)
  const { findings, pyramid } = forecast
  const at = { doseLu, doses: forecast, holdsFromLu: useMemo(() => holdsFromLu(cloth), [cloth]) }
  const trouble = troubleSays(findings, at)
  const isFound = forecast.status === 'ready'
  const share =
    forecast.along.length === 0 && isFound
      ? FILM_WORDS.noMarks
      : shareSays(forecast.along, findings, doseLu)
  const spoken =
    look === 'as drawn'
      ? FILM_WORDS.spokenDrawn
      : FILM_WORDS.spoken(value, unitWord, `${share}. ${trouble}`.trim())
  const [isWhole, setWhole] = useState(false)
  const listed = useMemo(() => (isWhole ? findings : findings.slice(0, FEW)), [isWhole, findings])
  const rings = useMemo(
    () =>
      listed
        .filter(({ opensUpToLu }) => opensUpToLu > cloth.lowLu && opensUpToLu < cloth.highLu)
        .map(({ number, opensUpToLu }) => ({ number, doseLu: opensUpToLu })),
    [listed, cloth],
  )
  if (pyramid === null || size === null) return null
  return (
    <>
      <div className="film-head">
        <h1>{FILM_WORDS.title}</h1>
        {forecast.along.length > 0 ? (
          <p className="film-sentence">
            {share}
            {FILM_WORDS.at}
            <strong>{`${value} ${unitWord}`}</strong>. {trouble}
          </p>
        ) : (
          <p className="film-sentence">
            {isFound ? FILM_WORDS.noMarks : FILM_WORDS.findingSo(tens(forecast.progressShare))}
          </p>
        )}
      </div>
      <div className="film-picture">
        <div className="film-top">
          <p className="film-name">{film.name}</p>
          <Looks look={look} onLook={setLook} />
        </div>
        <FilmPicture
          {...{ forecast, pyramid, look, doseLu, units, focused }}
          findings={listed}
          film={size}
          says={spoken}
        />
        <div className="film-cloth">
          <Cloth
            cloth={cloth}
            doseLu={doseLu}
            onDose={setChosenLu}
            unitWord={unitWord}
            unitShort={LIGHT_WORDS.short[countsIn]}
            height={45}
            acrossLabel={oneColumn ? FILM_WORDS.cloth.acrossShort : FILM_WORDS.cloth.across}
            {...(oneColumn ? {} : { middleLabel: FILM_WORDS.cloth.middle })}
            alongLabel={FILM_WORDS.cloth.along}
            rows="palest lowest"
            rings={rings}
            valueText={`${value} ${unitWord}, ${share.toLowerCase()}. ${trouble}`.trim()}
          />
        </div>
      </div>
      <div className="film-words">
        <Signs />
        {findings.length > 0 && (
          <div>
            <Findings
              findings={listed}
              film={{ ...size, widthMm: film.widthMm ?? 1, heightMm: film.heightMm ?? 1 }}
              {...{ at, units, focused }}
              onFocus={setFocused}
            />
            {findings.length > FEW && (
              <SecondAct onPress={() => setWhole(!isWhole)} expanded={isWhole}>
                {isWhole ? FILM_WORDS.fewer : FILM_WORDS.more(findings.length - FEW)}
              </SecondAct>
            )}
          </div>
        )}
        <Underdrawing film={film} units={units} onAnswered={onAnswered} />
        {standing}
        {light !== null && (
          <InTen
            good={chosenLu === null ? light.screensInTen : screensInTenAt(cloth, doseLu)}
            lightTo={lightTo(film.id, search)}
          />
        )}
        <ScreensForFilm film={film.id} />
        <Accuracy film={film} />
        {film.byPhoto !== null && (
          <ByPhoto film={film} told={film.byPhoto} units={units} onChanged={onAnswered} />
        )}
        {isFound && <UseDose doseLu={doseLu} unitWord={unitWord} />}
        <p>
          <Link to={withPlace(ROUTES.place, '', { films: film.id })} className="second-act">
            <span>{FILM_WORDS.toPlace}</span>
          </Link>
        </p>
      </div>
    </>
  )
}

function lightTo(film: string, search: string): string {
  const asked = new URLSearchParams(search)
  asked.set('film', film)
  return `${ROUTES.light}?${asked.toString()}`
}

function useFilmSize({ widthMm, heightMm, pixelUm }: Film) {
  return useMemo(() => {
    if (widthMm === null || heightMm === null || pixelUm === null) return null
    const px = (mm: number): number => Math.round((mm * 1000) / pixelUm)
    return { widthPx: px(widthMm), heightPx: px(heightMm), pixelUm }
  }, [widthMm, heightMm, pixelUm])
}

function InTen({ good, lightTo }: Readonly<{ good: number; lightTo: string }>): ReactNode {
  return (
    <div className="in-ten">
      <TenFrames good={good} />
      <p>
        <strong>{FILM_WORDS.inTen(good)}</strong>
        {FILM_WORDS.comeOut(good)}
        <Link to={lightTo} className="word-link">
          {FILM_WORDS.why}
        </Link>
      </p>
    </div>
  )
}

const UM_PER_INCH = 25_400

/** What can be judged from this reading, and what was odd about the file. */
function Accuracy({ film: { pixelUm, warnings, byPhoto } }: Readonly<{ film: Film }>): ReactNode {
  const units = useUnits()
  if (pixelUm === null) return null
  return (
    <div className="small">
      {byPhoto === null && (
        <p>
          {FILM_WORDS.accuracy(
            String(Math.round(UM_PER_INCH / pixelUm)),
            lengthText((2 * pixelUm) / 1000, units),
          )}
        </p>
      )}
      {warnings.map((warning) => (
        <p key={warning}>{warning}</p>
      ))}
    </div>
  )
}
