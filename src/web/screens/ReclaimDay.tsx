import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { ReclaimList, ScreenLine } from '../../api/register.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES } from '../router.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { Entry } from '../tests/Entry.tsx'
import '../tests/entry.css'
import { useAsked } from '../useAsked.ts'
import { ScreenInList } from './ScreenInList.tsx'
import './screens.css'
import { asking } from '../ask.ts'
import { MANY_WORDS, SCREENS_WORDS } from './screensWords.ts'

const FAR = '2100-12-31'
const WHOLE = /^\d{1,3}$/

/** Who owes which screen on a day, what is abandoned, what has a ghost, what is stretched anew. */
export function ReclaimDay(): ReactNode {
  const words = MANY_WORDS.reclaim
  const [on, setOn] = useState('')
  const [grace, setGrace] = useState('')
  const isWrong = grace !== '' && !WHOLE.test(grace)
  const query = new URLSearchParams({
    ...(on === '' ? {} : { on }),
    ...(grace === '' || isWrong ? {} : { graceDays: grace }),
  }).toString()
  const [asked, askAgain] = useAsked<ReclaimList>({
    path: asking(PATHS.reclaim, query),
  })
  const day = asked.answer
  return (
    <div className="screens">
      <h1>{words.title}</h1>
      <Standing asked={asked} working={SCREENS_WORDS.fetching} onAgain={askAgain} />
      <p className="cautions">{SCREENS_WORDS.reclaim.caution}</p>
      {day !== null && (
        <>
          <div className="entries">
            <DayEntry
              label={words.on}
              value={on === '' ? day.on : on}
              latest={FAR}
              onEntry={setOn}
            />
            <Entry
              label={words.grace}
              value={grace === '' ? String(day.graceDays) : grace}
              figures="whole"
              wrong={isWrong ? words.graceWrong : null}
              onEntry={setGrace}
            />
          </div>
          {day.owed.length === 0 && <p>{words.nothing}</p>}
          {day.owed.map(({ owner, screens }) => (
            <section key={owner ?? ''} className="owes">
              <h2>{words.owes(owner, screens.length)}</h2>
              <List screens={screens} isUnderName />
            </section>
          ))}
          {day.abandoned.length > 0 && (
            <section>
              <h2>{words.abandoned}</h2>
              <List screens={day.abandoned} />
            </section>
          )}
          {day.haze.length > 0 && (
            <section>
              <h2>{words.haze}</h2>
              <List screens={day.haze} />
            </section>
          )}
          {day.restretch.length > 0 && (
            <section>
              <h2>{words.restretch}</h2>
              <List screens={day.restretch} isStretching />
            </section>
          )}
          <div className="entry-acts">
            <SecondAct onPress={() => print()}>{words.print}</SecondAct>
            <Link to={ROUTES.screens} className="second-act">
              <span>{SCREENS_WORDS.register}</span>
            </Link>
          </div>
        </>
      )}
    </div>
  )
}

function List({
  screens,
  isStretching = false,
  isUnderName = false,
}: Readonly<{
  screens: readonly ScreenLine[]
  isStretching?: boolean
  isUnderName?: boolean
}>): ReactNode {
  return (
    <ul className="screen-list">
      {screens.map((screen) => (
        <li key={screen.tag}>
          <ScreenInList
            screen={screen}
            also={isStretching ? stretching(screen) : undefined}
            isUnderName={isUnderName}
          />
        </li>
      ))}
    </ul>
  )
}

function stretching({ frame, tension }: ScreenLine): string {
  const newton =
    tension === null ? SCREENS_WORDS.noTension : SCREENS_WORDS.tension(tension.newtonPerCm, null)
  return `${frame}, ${newton}`
}
