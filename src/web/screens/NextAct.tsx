import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { FeltDry, ScreenPage } from '../../api/register.ts'
import { newKey } from '../newKey.ts'
import { Link, ROUTES } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { Reclaiming } from './Reclaiming.tsx'
import { SCREENS_WORDS } from './screensWords.ts'
import type { Act } from './useScreen.ts'

type Acting = Readonly<{
  page: ScreenPage
  act: (act: Act) => Promise<boolean>
  isBusy: boolean
}>

/** The one thing to do next with this screen. */
export function NextAct({
  page,
  act,
  isBusy,
  onFelt,
}: Acting & Readonly<{ onFelt: () => void }>): ReactNode {
  const { screen } = page
  const [isOpen, setOpen] = useState(false)
  const word = SCREENS_WORDS.acts[screen.next]
  const done = async (what: Act): Promise<void> => {
    if (await act(what)) setOpen(false)
  }
  switch (screen.next) {
    case 'coat it':
      return <Going to={`${ROUTES.screens}?for=coating&tags=${screen.tag}`}>{word}</Going>
    case 'let it dry':
      return <ItIsDry tag={screen.tag} onFelt={onFelt} />
    case 'expose it':
      return <Going to={`${ROUTES.light}?screen=${screen.id}`}>{word}</Going>
    case 'print it':
      return (
        <Button wide busy={isBusy} onPress={() => void act({ kind: 'state', to: 'in print' })}>
          {word}
        </Button>
      )
    case 'finish the print':
      return (
        <Button wide busy={isBusy} onPress={() => void act({ kind: 'state', to: 'to reclaim' })}>
          {word}
        </Button>
      )
    case 'the coat is too old':
    case 'reclaim it':
    case 'stretch new fabric':
    case 'find it':
      return (
        <div>
          {!isOpen && (
            <Button wide expanded={false} onPress={() => setOpen(true)}>
              {word}
            </Button>
          )}
          {isOpen && screen.next === 'find it' && <Found act={done} />}
          {isOpen && screen.next === 'stretch new fabric' && <Stretching page={page} act={done} />}
          {isOpen && (screen.next === 'reclaim it' || screen.next === 'the coat is too old') && (
            <Reclaiming tag={screen.tag} isBusy={isBusy} act={done} />
          )}
        </div>
      )
  }
}

/** Somebody felt it. */
function ItIsDry({ tag, onFelt }: Readonly<{ tag: string; onFelt: () => void }>): ReactNode {
  const [key] = useState(newKey)
  const sending = useSending<FeltDry>()
  const felt = async (): Promise<void> => {
    const body = { key, tags: [tag] }
    if ((await sending.send({ path: PATHS.feltDry, method: 'POST', body })) !== null) onFelt()
  }
  return (
    <>
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <Button wide busy={sending.isBusy} onPress={() => void felt()}>
        {SCREENS_WORDS.isDry}
      </Button>
    </>
  )
}

function Going({ to, children }: Readonly<{ to: string; children: ReactNode }>): ReactNode {
  return (
    <Link to={to} className="act act-wide">
      {children}
    </Link>
  )
}

type Doing = Readonly<{ act: (what: Act) => Promise<void> }>

function Found({ act }: Doing): ReactNode {
  const [slot, setSlot] = useState('')
  const words = SCREENS_WORDS.found
  return (
    <div className="unfolded">
      <Entry
        label={words.slot}
        value={slot}
        longest={40}
        example={SCREENS_WORDS.slotExample}
        onEntry={setSlot}
      />
      <Button
        onPress={() =>
          void act({ kind: 'found', ...(slot.trim() === '' ? {} : { slot: slot.trim() }) })
        }
      >
        {words.act}
      </Button>
    </div>
  )
}

function Stretching({ page, act }: Doing & Readonly<{ page: ScreenPage }>): ReactNode {
  const words = SCREENS_WORDS.stretch
  const [fabric, setFabric] = useState('')
  const [newton, setNewton] = useState('')
  const [wrong, setWrong] = useState<string | null>(null)
  const stretched = async (): Promise<void> => {
    const value = Number(newton.replace(',', '.'))
    if (fabric === '') return setWrong(words.missing)
    if (newton.trim() !== '' && !(value > 0 && value <= 100)) {
      return setWrong(SCREENS_WORDS.number(newton))
    }
    const measured = newton.trim() === '' ? {} : { newtonPerCm: value }
    await act({ kind: 'stretched', fabric, ...measured })
  }
  return (
    <div className="unfolded">
      <p className="sentence">
        {`${words.fabric}: `}
        <Blank
          label={words.fabric}
          value={fabric}
          choices={page.fabrics}
          open={words.fabric}
          onChoice={setFabric}
        />
      </p>
      <Entry
        label={words.newton}
        value={newton}
        figures="decimal"
        unit="N/cm"
        onEntry={setNewton}
      />
      {wrong !== null && (
        <p role="alert" className="entry-wrong">
          {wrong}
        </p>
      )}
      <Button onPress={() => void stretched()}>{words.act}</Button>
    </div>
  )
}
