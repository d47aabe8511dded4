import { type ReactNode, useState } from 'react'
import type { Layer, Ticket } from '../../api/tickets.ts'
import { filmRoute, Link, ROUTES, useWay } from '../router.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { TICKET_WORDS } from './ticketWords.ts'
import type { Act } from './useTicket.ts'

/** The one next thing on a ticket, and beside it that it was done elsewhere. */
export function NextAct({
  ticket,
  act,
  isBusy,
  onChoose,
}: Readonly<{
  ticket: Ticket
  act: (act: Act) => Promise<boolean>
  isBusy: boolean
  /** A screen has to be chosen for this layer. */
  onChoose: (layer: string) => void
}>): ReactNode {
  const { go } = useWay()
  const { next } = ticket
  const layer = ticket.layers.find(({ id }) => id === next?.layer)
  if (next === null || layer === undefined) return null
  const { station, ink } = next
  const leadsTo = wayOf(layer, station)
  const press = (): void => {
    if (leadsTo !== null) go(leadsTo)
    else if (station === 'print') void act({ kind: 'pulled', layer: layer.id, sheets: 1 })
    else void act({ kind: 'done', layer: layer.id, station })
  }
  const caution = TICKET_WORDS.caution[station] ?? null
  if (station === 'screen' && layer.screen === null) {
    return (
      <div className="next-act">
        <Button onPress={() => onChoose(layer.id)}>{TICKET_WORDS.chooseFor(ink)}</Button>
        <SecondAct onPress={() => void act({ kind: 'done', layer: layer.id, station })}>
          {TICKET_WORDS.acts.screen(ink)}
        </SecondAct>
      </div>
    )
  }
  return (
    <div className="next-act">
      {!next.who.anybody && <p className="small">{next.who.says}</p>}
      {caution !== null && <p className="small">{caution}</p>}
      <Button onPress={press} busy={isBusy}>
        {TICKET_WORDS.acts[station](ink)}
      </Button>
      {station === 'artwork' && (
        <Link
          to={`${ROUTES.films}?${new URLSearchParams({ ticket: ticket.id }).toString()}`}
          className="second-act"
        >
          <span>{TICKET_WORDS.itIsAFile}</span>
        </Link>
      )}
      {station === 'print' && <AtThePress layer={layer} act={act} />}
      {(leadsTo !== null || station === 'print') && (
        <SecondAct onPress={() => void act({ kind: 'done', layer: layer.id, station })}>
          {TICKET_WORDS.doneThere[station]}
        </SecondAct>
      )}
    </div>
  )
}

/** Where the next thing is done; null where it is told here. */
function wayOf(
  { film, screen }: Layer,
  station: NonNullable<Ticket['next']>['station'],
): string | null {
  const of = film === null ? '' : `?${new URLSearchParams({ film: film.id }).toString()}`
  switch (station) {
    case 'artwork':
      return ROUTES.upload
    case 'film':
      return film === null ? ROUTES.upload : filmRoute(film.id)
    case 'light':
      return `${ROUTES.light}${ofLayer(film, screen)}`
    case 'water':
      return `${ROUTES.check}${of}`
    default:
      return null
  }
}

/** The layer’s own film on its own screen, as Light is asked. */
function ofLayer(film: Layer['film'], screen: Layer['screen']): string {
  const question = new URLSearchParams({
    ...(film === null ? {} : { film: film.id }),
    ...(screen === null ? {} : { screen: screen.id }),
  }).toString()
  return question === '' ? '' : `?${question}`
}

/** Counting at the press: five at once, and what was spoiled with why. */
function AtThePress({
  layer,
  act,
}: Readonly<{ layer: Layer; act: (act: Act) => Promise<boolean> }>): ReactNode {
  const [why, setWhy] = useState<string | null>(null)
  const [wrong, setWrong] = useState<string | null>(null)
  const spoil = async (): Promise<void> => {
    const said = why?.trim() ?? ''
    if (said === '') setWrong(TICKET_WORDS.whyMissing)
    else if (await act({ kind: 'spoiled', layer: layer.id, sheets: 1, why: said })) setWhy(null)
  }
  return (
    <>
      <div className="entry-acts">
        <SecondAct onPress={() => void act({ kind: 'pulled', layer: layer.id, sheets: 5 })}>
          {TICKET_WORDS.fiveMore}
        </SecondAct>
        <SecondAct expanded={why !== null} onPress={() => setWhy(why === null ? '' : null)}>
          {TICKET_WORDS.spoiled}
        </SecondAct>
      </div>
      {why !== null && (
        <div className="unfolded">
          <Entry
            label={TICKET_WORDS.spoiledWhy}
            value={why}
            example={TICKET_WORDS.spoiledExample}
            longest={120}
            wrong={wrong}
            onEntry={(written) => {
              setWrong(null)
              setWhy(written)
            }}
          />
          <SecondAct onPress={() => void spoil()}>{TICKET_WORDS.spoiledAct}</SecondAct>
        </div>
      )}
    </>
  )
}
