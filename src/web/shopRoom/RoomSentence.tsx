import { type ReactNode, useId, useState } from 'react'
import { thingPath } from '../../api/paths.ts'
import type { Things, RoomSentence as Told } from '../../api/things.ts'
import { Link } from '../router.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { SHOP_ROOM_WORDS } from './shopRoomWords.ts'
import { ThingEntry } from './ThingEntry.tsx'

/** A sentence that opens to its facts, and to what can be changed. */
export function RoomSentence({
  told,
  onChanged,
}: Readonly<{ told: Told; onChanged: () => void }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [doing, setDoing] = useState<'change' | 'gone' | null>(null)
  const sending = useSending<Things>()
  const id = useId()
  const { says, look, facts, to, paper, thing } = told
  const gone = async (): Promise<void> => {
    if (thing === null) return
    const question = { path: thingPath(thing.id), method: 'DELETE' } as const
    if ((await sending.send(question)) !== null) onChanged()
  }
  const lab = thing?.told.kind === 'leftover' ? thing.told.facts.lab : null
  return (
    <li className="room-line">
      <button
        type="button"
        className="room-says"
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setOpen(!isOpen)}
      >
        {lab !== null && <Swatch lab={lab} />}
        <span>
          {look && <strong className="room-look">{SHOP_ROOM_WORDS.look}</strong>}
          {says}
        </span>
      </button>
      <div id={id} className="room-facts" hidden={!isOpen}>
        {facts.map((fact) => (
          <p key={fact}>{fact}</p>
        ))}
        <div className="room-acts">
          {to !== null && (
            <Link to={to} className="second-act">
              <span>{SHOP_ROOM_WORDS.more}</span>
            </Link>
          )}
          {paper !== null && (
            <a className="second-act" href={paper}>
              <span>{SHOP_ROOM_WORDS.paper}</span>
            </a>
          )}
          {thing !== null && (
            <>
              <SecondAct
                expanded={doing === 'change'}
                onPress={() => setDoing(doing === 'change' ? null : 'change')}
              >
                {SHOP_ROOM_WORDS.change}
              </SecondAct>
              <SecondAct
                expanded={doing === 'gone'}
                onPress={() => setDoing(doing === 'gone' ? null : 'gone')}
              >
                {SHOP_ROOM_WORDS.gone}
              </SecondAct>
            </>
          )}
        </div>
        {thing !== null && doing === 'change' && (
          <ThingEntry
            from={thing.told}
            path={thingPath(thing.id)}
            onKept={() => {
              setDoing(null)
              onChanged()
            }}
            onLeave={() => setDoing(null)}
          />
        )}
        {doing === 'gone' && (
          <div className="unfolded">
            <p>{SHOP_ROOM_WORDS.sure}</p>
            {sending.message !== null && (
              <p role="alert" className="entry-wrong">
                {sending.message}
              </p>
            )}
            <div className="entry-acts">
              <SecondAct onPress={() => void gone()}>{SHOP_ROOM_WORDS.goneYes}</SecondAct>
              <SecondAct onPress={() => setDoing(null)}>{SHOP_ROOM_WORDS.goneNo}</SecondAct>
            </div>
          </div>
        )}
      </div>
    </li>
  )
}

/** The ink's own colour; its name stands beside it. */
function Swatch({ lab: [lightness, a, b] }: Readonly<{ lab: readonly number[] }>): ReactNode {
  return (
    <svg className="room-swatch" viewBox="0 0 24 24" width={24} height={24} aria-hidden="true">
      <rect width={24} height={24} fill={`lab(${lightness}% ${a} ${b})`} />
    </svg>
  )
}
