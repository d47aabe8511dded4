import { type ReactNode, useState } from 'react'
import type { ScreenPage } from '../../api/register.ts'
import { useMe } from '../people/me.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { Entry } from '../tests/Entry.tsx'
import { SCREENS_WORDS } from './screensWords.ts'
import type { Act } from './useScreen.ts'

const FAR = '2100-12-31'

/** What else can be told of a screen: whose, where, how tight, torn, lost. */
export function ChangeScreen({
  page,
  act,
}: Readonly<{ page: ScreenPage; act: (act: Act) => Promise<boolean> }>): ReactNode {
  const { screen } = page
  const me = useMe().me?.person ?? null
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="unfolding">
      <div className="entry-acts">
        {screen.mine && (
          <SecondAct onPress={() => void act({ kind: 'owner', owner: null, until: null })}>
            {SCREENS_WORDS.notMine}
          </SecondAct>
        )}
        {me !== null && screen.owner === null && (
          <SecondAct onPress={() => void act({ kind: 'owner', owner: me.id })}>
            {SCREENS_WORDS.isMine}
          </SecondAct>
        )}
        <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
          {SCREENS_WORDS.change}
        </SecondAct>
      </div>
      {isOpen && <Blanks page={page} act={act} onDone={() => setOpen(false)} />}
    </div>
  )
}

function Blanks({
  page: { screen, people },
  act,
  onDone,
}: Readonly<{
  page: ScreenPage
  act: (act: Act) => Promise<boolean>
  onDone: () => void
}>): ReactNode {
  const [owner, setOwner] = useState(screen.owner?.id ?? '')
  const [until, setUntil] = useState(screen.keptUntil ?? '')
  const [slot, setSlot] = useState(screen.rackSlot ?? '')
  const [newton, setNewton] = useState('')
  const [note, setNote] = useState('')
  const [wrong, setWrong] = useState<string | null>(null)
  const value = Number(newton.replace(',', '.'))
  const changed = (): readonly Act[] => {
    const acts: Act[] = []
    if (owner !== (screen.owner?.id ?? '') || until !== (screen.keptUntil ?? '')) {
      const asked = { owner: owner === '' ? null : owner, until: until === '' ? null : until }
      acts.push({ kind: 'owner', ...asked })
    }
    const place = slot.trim()
    if (place !== (screen.rackSlot ?? '')) {
      acts.push({ kind: 'slot', slot: place === '' ? null : place })
    }
    if (newton.trim() !== '') acts.push({ kind: 'tension', newtonPerCm: value })
    if (note.trim() !== '') acts.push({ kind: 'note', says: note.trim() })
    return acts
  }
  const keep = async (): Promise<void> => {
    if (newton.trim() !== '' && !(value > 0 && value <= 100)) {
      setWrong(SCREENS_WORDS.number(newton))
      return
    }
    setWrong(null)
    for (const each of changed()) if (!(await act(each))) return
    onDone()
  }
  const once = async (what: Act): Promise<void> => {
    if (await act(what)) onDone()
  }
  return (
    <div className="unfolded">
      <p className="sentence">
        {`${SCREENS_WORDS.owner}: `}
        <Blank
          label={SCREENS_WORDS.owner}
          value={owner}
          choices={people}
          open={SCREENS_WORDS.nobody}
          onChoice={setOwner}
        />
      </p>
      <div className="entries">
        <DayEntry label={SCREENS_WORDS.until} value={until} latest={FAR} onEntry={setUntil} />
        <Entry
          label={SCREENS_WORDS.slot}
          value={slot}
          longest={40}
          example={SCREENS_WORDS.slotExample}
          onEntry={setSlot}
        />
        <Entry
          label={SCREENS_WORDS.newton}
          value={newton}
          figures="decimal"
          unit="N/cm"
          wrong={wrong}
          onEntry={setNewton}
        />
        <Entry
          label={SCREENS_WORDS.note}
          value={note}
          longest={120}
          example={SCREENS_WORDS.noteExample}
          onEntry={setNote}
        />
      </div>
      <Button onPress={() => void keep()}>{SCREENS_WORDS.keep}</Button>
      <div className="entry-acts">
        {screen.state !== 'to reclaim' && screen.coat !== null && (
          <SecondAct onPress={() => void once({ kind: 'state', to: 'to reclaim' })}>
            {SCREENS_WORDS.toReclaim}
          </SecondAct>
        )}
        <SecondAct onPress={() => void once({ kind: 'haze', is: !screen.haze })}>
          {screen.haze ? SCREENS_WORDS.ghostGone : SCREENS_WORDS.ghostStays}
        </SecondAct>
        {screen.state !== 'torn' && (
          <SecondAct onPress={() => void once({ kind: 'state', to: 'torn' })}>
            {SCREENS_WORDS.torn}
          </SecondAct>
        )}
        {screen.state !== 'lost' && (
          <SecondAct onPress={() => void once({ kind: 'lost' })}>{SCREENS_WORDS.lost}</SecondAct>
        )}
      </div>
    </div>
  )
}
