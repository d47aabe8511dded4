import { useEffect } from 'react'
import type { Film, FilmForecast } from '../../api/films.ts'
import type { LightAnswer } from '../../api/light.ts'
import { filmForecastPath, filmPath, PATHS } from '../../api/paths.ts'
import { asking } from '../ask.ts'
import type { Asked } from '../asked.ts'
import { useAsked } from '../useAsked.ts'

/** How often one asks how far the reading is. */
const AGAIN_MS = 500

/** Everything the page of a film asks for, and asked again while the film is being read. */
export function useFilm(
  film: string,
  search: string,
): Readonly<{
  film: Asked<Film>
  forecast: Asked<FilmForecast>
  light: Asked<LightAnswer>
  askAgain: () => void
}> {
  const on = exposureOf(search)
  const [record, askRecord] = useAsked<Film>({ path: filmPath(film) })
  const [forecast, askForecast] = useAsked<FilmForecast>({
    path: asking(filmForecastPath(film), on),
  })
  const isReady = forecast.answer?.status === 'ready'
  const [light, askLight] = useAsked<LightAnswer>(
    isReady
      ? {
          path: asking(PATHS.light, `${new URLSearchParams({ film }).toString()}&${on}`),
        }
      : null,
  )
  usePolling(isUnderWay(record), askRecord)
  usePolling(isUnderWay(forecast), askForecast)
  const askAgain = (): void => {
    askRecord()
    askForecast()
    if (isReady) askLight()
  }
  return { film: record, forecast, light, askAgain }
}

/** What the address says about base, screen and lamp. */
function exposureOf(search: string): string {
  const said = new URLSearchParams(search)
  const on = new URLSearchParams()
  for (const name of ['base', 'screen', 'unit']) {
    const value = said.get(name)
    if (value !== null) on.set(name, value)
  }
  return on.toString()
}

function isUnderWay({ answer, answeredAt }: Asked<Film | FilmForecast>): Date | null {
  return answer !== null && (answer.status === 'waiting' || answer.status === 'reading')
    ? answeredAt
    : null
}

/** @param since when the last answer came; null: no need to ask again */
function usePolling(since: Date | null, askAgain: () => void): void {
  useEffect(() => {
    if (since === null) return undefined
    const timer = setTimeout(askAgain, AGAIN_MS)
    return () => clearTimeout(timer)
  }, [since, askAgain])
}
