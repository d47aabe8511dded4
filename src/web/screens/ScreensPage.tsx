import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Register, ScreenLine } from '../../api/register.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useAsked } from '../useAsked.ts'
import { CoatMany } from './CoatMany.tsx'
import { FeltDry } from './FeltDry.tsx'
import { NewScreens } from './NewScreens.tsx'
import { ReclaimDay } from './ReclaimDay.tsx'
import { ScreenInList } from './ScreenInList.tsx'
import './screens.css'
import { SCREENS_WORDS } from './screensWords.ts'

const REGISTER = { path: PATHS.register }
const STATES = ['clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn', 'lost'] as const
const FEW = 8

/** All screens with their tags, and what one does with many at once. */
export function ScreensPage(): ReactNode {
  const { search } = useWay()
  const [asked, askAgain] = useAsked<Register>(REGISTER)
  const said = new URLSearchParams(search)
  const purpose = said.get('for')
  const register = asked.answer
  const standing = <Standing asked={asked} working={SCREENS_WORDS.fetching} onAgain={askAgain} />
  if (purpose === 'reclaim') return <ReclaimDay />
  if (register === null) {
    return (
      <div className="screens">
        <h1>{SCREENS_WORDS.title}</h1>
        {standing}
      </div>
    )
  }
  if (purpose === 'coating') {
    const tags = said.get('tags')?.split(',') ?? []
    return <CoatMany register={register} tags={tags} onCoated={askAgain} />
  }
  if (purpose === 'dry') return <FeltDry register={register} onFelt={askAgain} />
  if (purpose === 'new') return <NewScreens register={register} onMade={askAgain} />
  return (
    <div className="screens">
      <h1>{SCREENS_WORDS.title}</h1>
      {standing}
      <p className="screens-lead">{leadOf(register.screens)}</p>
      <nav className="screens-doors" aria-label={SCREENS_WORDS.title}>
        <Link to={`${ROUTES.screens}?for=coating`} className="act">
          {SCREENS_WORDS.coat}
        </Link>
        {register.screens.some(
          ({ state, coat }) => state === 'coated' && coat?.isToFeel === true,
        ) && <Door to={`${ROUTES.screens}?for=dry`}>{SCREENS_WORDS.whichDry}</Door>}
        <Door to={`${ROUTES.screens}?for=reclaim`}>{SCREENS_WORDS.reclaimDay}</Door>
        <Door to={`${ROUTES.screens}?for=new`}>{SCREENS_WORDS.fresh}</Door>
        {register.screens.length > 0 && (
          <a href={PATHS.screenLabels} className="second-act">
            <span>{SCREENS_WORDS.labels}</span>
          </a>
        )}
      </nav>
      {register.screens.length === 0 ? (
        <p>{SCREENS_WORDS.none}</p>
      ) : (
        <Lines screens={register.screens} />
      )}
    </div>
  )
}

function Door({ to, children }: Readonly<{ to: string; children: ReactNode }>): ReactNode {
  return (
    <Link to={to} className="second-act">
      <span>{children}</span>
    </Link>
  )
}

/** As one says it: 12 screens: 2 clean, 6 coated, 1 torn. */
function leadOf(screens: readonly ScreenLine[]): string {
  const counts = STATES.flatMap((state) => {
    const count = screens.filter((screen) => screen.state === state).length
    return count === 0 ? [] : [`${count} ${SCREENS_WORDS.counts[state]}`]
  })
  return `${SCREENS_WORDS.lead(screens.length)}${counts.length === 0 ? '' : `: ${counts.join(', ')}`}.`
}

function Lines({ screens }: Readonly<{ screens: readonly ScreenLine[] }>): ReactNode {
  const [filter, setFilter] = useState('')
  const [find, setFind] = useState('')
  const wanted = find.trim().toLowerCase()
  const shown = screens.filter((screen) => {
    if (filter === 'mine' ? !screen.mine : filter !== '' && screen.state !== filter) return false
    return (
      wanted === '' ||
      screen.tag.toLowerCase() === wanted ||
      (screen.owner?.name.toLowerCase().includes(wanted) ?? false)
    )
  })
  const choices = [
    ...(screens.some(({ mine }) => mine) ? [{ id: 'mine', name: SCREENS_WORDS.mine }] : []),
    ...STATES.filter((state) => screens.some((screen) => screen.state === state)).map((state) => ({
      id: state,
      name: SCREENS_WORDS.counts[state],
    })),
  ]
  return (
    <>
      {screens.length > FEW && (
        <div className="screens-find">
          <p className="sentence">
            {`${SCREENS_WORDS.filter} `}
            <Blank
              label={SCREENS_WORDS.filter}
              value={filter}
              choices={choices}
              open={SCREENS_WORDS.all}
              onChoice={setFilter}
            />
          </p>
          <Entry label={SCREENS_WORDS.find} value={find} longest={80} onEntry={setFind} />
        </div>
      )}
      {shown.length === 0 && <p>{SCREENS_WORDS.noneSo}</p>}
      <ul className="screen-list">
        {shown.map((screen) => (
          <li key={screen.tag}>
            <ScreenInList screen={screen} />
          </li>
        ))}
      </ul>
    </>
  )
}
