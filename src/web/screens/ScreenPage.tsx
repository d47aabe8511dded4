import type { ReactNode } from 'react'
import type { ScreenPage as Page } from '../../api/register.ts'
import { slotOf } from '../../core/register/rack.ts'
import { ScreenClock } from '../clocks/RoomClocks.tsx'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES } from '../router.tsx'
import { StationFrame } from '../signs/StationFrame.tsx'
import '../tests/entry.css'
import { ChangeScreen } from './ChangeScreen.tsx'
import { NextAct } from './NextAct.tsx'
import { Rack } from './Rack.tsx'
import { coatTimes, dayWords, shortDay, stationOf, whatIsOn, whoseIs } from './screenSays.ts'
import './screenPage.css'
import './screens.css'
import { StencilPicture } from './StencilPicture.tsx'
import { SCREENS_WORDS } from './screensWords.ts'
import { useScreen } from './useScreen.ts'

/** One screen after its tag was scanned: whose it is, what is on it, what next. */
export function ScreenPage({ tag }: Readonly<{ tag: string }>): ReactNode {
  const { asked, page, askAgain, message, isBusy, act } = useScreen(tag)
  const standing = <Standing asked={asked} working={SCREENS_WORDS.fetching} onAgain={askAgain} />
  if (page === null) {
    return (
      <div className="screen-page">
        <h1>
          {SCREENS_WORDS.screen} <span className="screen-tag">{tag}</span>
        </h1>
        {standing}
        <p>
          <ToAll />
        </p>
      </div>
    )
  }
  const { screen, history } = page
  const on = whatIsOn(screen)
  const times = coatTimes(screen)
  return (
    <div className="screen-page">
      <h1>
        {SCREENS_WORDS.screen} <span className="screen-tag">{screen.tag}</span>
      </h1>
      {standing}
      <div className="screen-says">
        <StationFrame state={stationOf(screen)} size={56} />
        <div>
          <p className="screen-whose">
            {whoseIs(screen)} {SCREENS_WORDS.is[screen.state]}
          </p>
          {on !== null && <p>{on}</p>}
          {times !== null && <p>{times}</p>}
          {screen.haze && <p>{SCREENS_WORDS.ghost}</p>}
          <p className="screen-next">{SCREENS_WORDS.next[screen.next]}</p>
        </div>
      </div>
      <ScreenClock tag={screen.tag} />
      {screen.stencil?.film !== undefined && screen.stencil.film !== null && (
        <StencilPicture film={screen.stencil.film.id} says={on ?? ''} />
      )}
      <Facts page={page} />
      {message !== null && (
        <p role="alert" className="entry-wrong">
          {message}
        </p>
      )}
      <NextAct page={page} act={act} isBusy={isBusy} onFelt={askAgain} />
      <ChangeScreen page={page} act={act} />
      <details className="screen-history">
        <summary>{SCREENS_WORDS.history}</summary>
        {history.length === 0 && <p>{SCREENS_WORDS.historyNone}</p>}
        <ul>
          {history.map(({ id, on: day, says, by }) => (
            <li key={id}>{`${dayWords(day)}: ${says}${by === null ? '' : ` (${by})`}`}</li>
          ))}
        </ul>
      </details>
      <p>
        <ToAll />
      </p>
    </div>
  )
}

function ToAll(): ReactNode {
  return (
    <Link to={ROUTES.screens} className="second-act">
      <span>{SCREENS_WORDS.register}</span>
    </Link>
  )
}

function Facts({ page: { screen, beside } }: Readonly<{ page: Page }>): ReactNode {
  const words = SCREENS_WORDS.facts
  const { fabric, tension, frame, keptUntil, rackSlot, mine, owner } = screen
  const slot = rackSlot === null ? null : slotOf(rackSlot)
  const newton =
    tension === null
      ? SCREENS_WORDS.noTension
      : SCREENS_WORDS.tension(
          tension.newtonPerCm,
          tension.on === null ? null : shortDay(tension.on),
        )
  const rack =
    slot === null ? (rackSlot ?? words.noRack) : SCREENS_WORDS.rack(slot.rack, slot.place)
  return (
    <>
      <dl className="screen-facts">
        <Fact name={words.fabric} says={`${fabric}, ${newton}`} />
        <Fact name={words.frame} says={frame} />
        {owner !== null && (
          <Fact
            name={mine ? words.yours : words.until}
            says={keptUntil === null ? words.noUntil : dayWords(keptUntil)}
          />
        )}
        <Fact name={words.rack} says={rack} />
      </dl>
      {slot !== null && <Rack slot={slot} beside={beside} own={screen.tag} />}
    </>
  )
}

function Fact({ name, says }: Readonly<{ name: string; says: string }>): ReactNode {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{says}</dd>
    </div>
  )
}
