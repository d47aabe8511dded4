import { type ReactNode, useMemo, useState } from 'react'
import type { FirstDose } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import type { Shop } from '../../api/shop.ts'
import { ask, type Question } from '../ask.ts'
import type { Door } from '../frame/Frame.tsx'
import { ROUTES, useWay } from '../router.tsx'
import { useShop } from '../shop.tsx'
import { BlankEntry } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { useAsked } from '../useAsked.ts'
import { FIRST_WORDS, FRAME_WORDS } from '../words.ts'
import { factsOf, NO_ENTRIES } from './entries.ts'
import './first.css'
import { FirstDosePicture } from './FirstDosePicture.tsx'
import { Paragraph } from './Paragraph.tsx'

/**
 * The first page on an empty folder: a paragraph with blanks, and what follows from it.
 *
 * @param door through which one came, where something else stands once there is a shop
 */
export function FirstPage({ door }: Readonly<{ door: Door | null }>): ReactNode {
  const [entries, setEntries] = useState(NO_ENTRIES)
  const { shopName, ...told } = entries
  const key = JSON.stringify(factsOf({ ...told, shopName: '' }))
  const question = useMemo<Question<FirstDose>>(
    () => ({ path: PATHS.firstDose, method: 'POST', body: JSON.parse(key) as unknown }),
    [key],
  )
  const [asked, askAgain] = useAsked<FirstDose>(question, { pauseMs: 200 })
  const opening = useOpening()
  return (
    <div className="first">
      <div className="first-words">
        <h1>{FIRST_WORDS.title}</h1>
        <p className="first-intro">{FIRST_WORDS.intro}</p>
        <Paragraph entries={entries} onChange={setEntries} />
      </div>
      <FirstDosePicture
        asked={asked}
        countsIn={entries.countsIn === '' ? 'light units' : entries.countsIn}
        onAgain={askAgain}
      />
      <div className="first-acts">
        <p className="first-name">
          {FIRST_WORDS.called}{' '}
          <BlankEntry
            label={FIRST_WORDS.labels.shopName}
            value={shopName}
            open={FIRST_WORDS.open.shopName}
            onEntry={(written) => setEntries({ ...entries, shopName: written })}
          />
          .
        </p>
        <div className="first-buttons">
          <Button
            busy={opening.busy}
            onPress={() =>
              void opening.open({ path: PATHS.ownShop, method: 'POST', body: factsOf(entries) })
            }
          >
            {opening.busy ? FIRST_WORDS.opening : FIRST_WORDS.act}
          </Button>
          <SecondAct onPress={() => void opening.open({ path: PATHS.demoShop, method: 'POST' })}>
            {FIRST_WORDS.demo}
          </SecondAct>
        </div>
        <p className="first-said" aria-live="polite">
          {opening.message ??
            (door === null ? null : FIRST_WORDS.opensThen(FRAME_WORDS.doors[door]))}
        </p>
        <p className="small">{FIRST_WORDS.about}</p>
      </div>
    </div>
  )
}

type Opening = Readonly<{
  busy: boolean
  message: string | null
  open: (question: Question<Shop>) => Promise<void>
}>

/** Opens a shop; what was entered stays when it does not work out. */
function useOpening(): Opening {
  const { askAgain } = useShop()
  const { go } = useWay()
  const [busy, setBusy] = useState(false)
  const [message, setMessage] = useState<string | null>(null)
  const open = async (question: Question<Shop>): Promise<void> => {
    if (busy) return
    setBusy(true)
    setMessage(null)
    const from = location.pathname
    const reply = await ask<Shop>(question)
    setBusy(false)
    switch (reply.kind) {
      case 'answer':
        askAgain()
        // who went through another door meanwhile stays there
        if (from === ROUTES.shop && location.pathname === from) go(ROUTES.light)
        return
      case 'refused':
        setMessage(reply.message)
        return
      case 'opening':
        setMessage(FRAME_WORDS.opening)
        return
      case 'no connection':
        setMessage(FRAME_WORDS.noConnection)
    }
  }
  return { busy, message, open }
}
