import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { ThingKind, Things } from '../../api/things.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES } from '../router.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { useAsked } from '../useAsked.ts'
import { FRAME_WORDS, ROOM_WORDS } from '../words.ts'
import { Incidents } from './Incidents.tsx'
import { RoomSentence } from './RoomSentence.tsx'
import './shopRoom.css'
import { SHOP_ROOM_WORDS } from './shopRoomWords.ts'
import { ThingEntry } from './ThingEntry.tsx'

const THINGS = { path: PATHS.things }
const KINDS = Object.keys(SHOP_ROOM_WORDS.kinds) as readonly ThingKind[]

/** What stands in the room: sentences that open to their facts. */
export function ShopRoomPage(): ReactNode {
  const [asked, askAgain] = useAsked<Things>(THINGS)
  const [adds, setAdds] = useState<ThingKind | 'which' | null>(null)
  const things = asked.answer
  return (
    <div className="shop-room">
      <header className="room-head">
        <h1>{ROOM_WORDS.shop.title}</h1>
        <p>{SHOP_ROOM_WORDS.lead}</p>
        <Standing asked={asked} working={SHOP_ROOM_WORDS.fetching} onAgain={askAgain} />
      </header>
      {things !== null && (
        <>
          <div className="room-add">
            <Button
              expanded={adds !== null}
              onPress={() => setAdds(adds === null ? 'which' : null)}
            >
              {SHOP_ROOM_WORDS.add}
            </Button>
            <Link to={ROUTES.trouble} className="second-act">
              <span>{SHOP_ROOM_WORDS.trouble}</span>
            </Link>
            <Link to={ROUTES.steps} className="second-act">
              <span>{FRAME_WORDS.stepsTitle}</span>
            </Link>
            <a href={PATHS.handover} className="second-act">
              <span>{SHOP_ROOM_WORDS.handover}</span>
            </a>
            <a href={PATHS.yearReport} className="second-act">
              <span>{SHOP_ROOM_WORDS.year}</span>
            </a>
          </div>
          {adds !== null && (
            <div className="unfolded">
              <p>{SHOP_ROOM_WORDS.addLead}</p>
              <div className="room-acts">
                {KINDS.map((kind) => (
                  <SecondAct key={kind} expanded={adds === kind} onPress={() => setAdds(kind)}>
                    {SHOP_ROOM_WORDS.kinds[kind]}
                  </SecondAct>
                ))}
              </div>
              {adds !== 'which' && (
                <ThingEntry
                  key={adds}
                  from={adds}
                  path={PATHS.things}
                  onKept={() => {
                    setAdds(null)
                    askAgain()
                  }}
                  onLeave={() => setAdds(null)}
                />
              )}
            </div>
          )}
          <div className="room-groups">
            {things.groups.map(({ name, sentences }) => (
              <section key={name} className="room-group">
                <h2>{name}</h2>
                <ul className="room-list">
                  {sentences.map((told) => (
                    <RoomSentence key={told.id} told={told} onChanged={askAgain} />
                  ))}
                </ul>
              </section>
            ))}
            <Incidents incidents={things.incidents} onNoted={askAgain} />
          </div>
          <p className="small">{SHOP_ROOM_WORDS.caution}</p>
        </>
      )}
    </div>
  )
}
