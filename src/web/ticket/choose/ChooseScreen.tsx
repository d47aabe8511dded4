import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { Layer } from '../../../api/tickets.ts'
import { Link, ROUTES, ticketRoute } from '../../router.tsx'
import { Button, SecondAct } from '../../signs/Button.tsx'
import type { Act } from '../useTicket.ts'
import { CHOOSE_WORDS } from './chooseWords.ts'
import { ScreenList, type ScreenShown } from './ScreenList.tsx'

/** On a layer: which screen it has, and which others would do. */
export function ChooseScreen({
  layer: { id, screen },
  act,
  isAsked = false,
}: Readonly<{
  layer: Layer
  act: (act: Act) => Promise<boolean>
  /** It is the next thing to do: open, and in sight. */
  isAsked?: boolean
}>): ReactNode {
  const [isOpen, setOpen] = useState(isAsked)
  const place = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (isAsked) place.current?.scrollIntoView({ block: 'start' })
  }, [isAsked])
  const choose = async (chosen: string | null): Promise<void> => {
    if (await act({ kind: 'screen', layer: id, screen: chosen })) setOpen(false)
  }
  return (
    <div className="unfolding" ref={place}>
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {screen === null ? CHOOSE_WORDS.ask : CHOOSE_WORDS.has(screen.name)}
      </SecondAct>
      {isOpen && (
        <ScreenList
          of={{ layer: id }}
          acts={({ id: screenId, name, chosen, when }, isFirst) =>
            chosen ? (
              <>
                <p>{CHOOSE_WORDS.chosen}</p>
                <SecondAct onPress={() => void choose(null)}>{CHOOSE_WORDS.takeOff}</SecondAct>
              </>
            ) : (
              when !== 'not' && (
                <Take isFirst={isFirst} onPress={() => void choose(screenId)}>
                  {CHOOSE_WORDS.take(name)}
                </Take>
              )
            )
          }
        />
      )}
    </div>
  )
}

/** On a film: which screens would do, and the way on from each. */
export function ScreensForFilm({ film }: Readonly<{ film: string }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {CHOOSE_WORDS.ask}
      </SecondAct>
      {isOpen && (
        <ScreenList
          of={{ film }}
          foot={({ layer, ticket }) =>
            layer !== null &&
            ticket !== null && (
              <p>
                {`${CHOOSE_WORDS.onTicket(layer)} `}
                <Link to={ticketRoute(ticket)} className="word-link">
                  {CHOOSE_WORDS.toTicket}
                </Link>
              </p>
            )
          }
          acts={(screen) =>
            screen.when === 'now' && (
              <Link to={lightOn(film, screen)} className="second-act">
                <span>{CHOOSE_WORDS.light(screen.name)}</span>
              </Link>
            )
          }
        />
      )}
    </div>
  )
}

function lightOn(film: string, { id }: ScreenShown): string {
  return `${ROUTES.light}?${new URLSearchParams({ film, screen: id }).toString()}`
}

/** The best of them is the next thing to do. */
function Take({
  isFirst,
  onPress,
  children,
}: Readonly<{ isFirst: boolean; onPress: () => void; children: ReactNode }>): ReactNode {
  return isFirst ? (
    <Button onPress={onPress}>{children}</Button>
  ) : (
    <SecondAct onPress={onPress}>{children}</SecondAct>
  )
}
