import { type ReactNode, useEffect, useRef, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Me, SignIn } from '../../api/people.ts'
import { Link, ROUTES, useWay } from '../router.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { useMe } from './me.tsx'
import { PasswordEntry } from './PasswordEntry.tsx'
import './people.css'
import { SIGN_IN_WORDS } from './peopleWords.ts'

/** Who one is: by the card's code, typed or scanned, or by name and password. */
export function SignInPage(): ReactNode {
  const words = SIGN_IN_WORDS
  const { me, askAgain } = useMe()
  const { path, go } = useWay()
  const sending = useSending<Me>()
  const leaving = useSending<null>()
  const [isCard, setCard] = useState(true)
  const [code, setCode] = useState('')
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  const [wrong, setWrong] = useState<string | null>(null)
  const scanned = useRef<string | null>(null)
  const signIn = async (by: SignIn): Promise<void> => {
    const answer = await sending.send({ path: PATHS.signIn, method: 'POST', body: by })
    if (answer === null) return
    askAgain()
    if (path === ROUTES.signIn) go(ROUTES.light, 'replace')
  }
  // a card that was scanned brings its code behind the #, which no server sees
  // biome-ignore lint/correctness/useExhaustiveDependencies: when the page comes, and at each card
  useEffect(() => {
    const byCard = (): void => {
      const fromCard = codeIn(location.hash)
      if (fromCard === '' || scanned.current === fromCard) return
      scanned.current = fromCard
      history.replaceState(null, '', location.pathname)
      void signIn({ code: fromCard })
    }
    byCard()
    // the next card on a device that shows this page already
    addEventListener('hashchange', byCard)
    return () => removeEventListener('hashchange', byCard)
  }, [])
  const send = (): void => {
    setWrong(null)
    if (isCard && code.trim().length < 4) return setWrong(words.missing)
    if (!isCard && (name.trim() === '' || password === '')) return setWrong(words.both)
    void signIn(isCard ? { code: code.trim() } : { name: name.trim(), password })
  }
  const out = async (): Promise<void> => {
    await leaving.send({ path: PATHS.signOut, method: 'POST' })
    askAgain()
  }
  const says = wrong ?? sending.message ?? leaving.message
  return (
    <div className="sign-in">
      <h1>{words.title}</h1>
      {me?.person !== null && me !== null ? (
        <>
          <p className="sign-in-here">{words.here(me.person.name)}</p>
          <div className="entry-acts">
            <Link to={ROUTES.light} className="act">
              {words.toLight}
            </Link>
            <SecondAct onPress={() => void out()}>{words.out}</SecondAct>
          </div>
        </>
      ) : (
        <form
          className="sign-in-form"
          onSubmit={(event) => {
            event.preventDefault()
            send()
          }}
        >
          {isCard ? (
            <Entry
              label={words.code}
              value={code}
              large
              longest={12}
              example={words.example}
              isWrong={says !== null}
              onEntry={setCode}
            />
          ) : (
            <>
              <Entry label={words.name} value={name} longest={80} onEntry={setName} />
              <PasswordEntry label={words.password} value={password} onEntry={setPassword} />
            </>
          )}
          {sending.isBusy && (
            <p role="status" className="soft">
              {words.working}
            </p>
          )}
          {says !== null && (
            <p role="alert" className="entry-wrong">
              {says}
            </p>
          )}
          <div className="entry-acts">
            <Button kind="submit" busy={sending.isBusy}>
              {words.act}
            </Button>
            <SecondAct onPress={() => setCard(!isCard)}>
              {isCard ? words.byPassword : words.byCard}
            </SecondAct>
          </div>
          <p className="small">{words.lost}</p>
        </form>
      )}
    </div>
  )
}

/** What stands behind the #, also where it is no text that an address could hold. */
function codeIn(hash: string): string {
  try {
    return decodeURIComponent(hash.slice(1))
  } catch {
    return hash.slice(1)
  }
}
