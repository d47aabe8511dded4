import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { FeltDry as Answer, Register } from '../../api/register.ts'
import { newKey } from '../newKey.ts'
import { Link, ROUTES } from '../router.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { useSending } from '../tests/useSending.ts'
import { coatTimes } from './screenSays.ts'
import './screens.css'
import { MANY_WORDS, SCREENS_WORDS } from './screensWords.ts'

/** Coats that nobody has felt yet, and which of them are dry now: how long they took counts. */
export function FeltDry({
  register,
  onFelt,
}: Readonly<{ register: Register; onFelt: () => void }>): ReactNode {
  const words = MANY_WORDS.dry
  const wet = register.screens.filter(
    ({ state, coat }) => state === 'coated' && coat?.isToFeel === true,
  )
  const [out, setOut] = useState<ReadonlySet<string>>(new Set())
  const [key, setKey] = useState(newKey)
  const [done, setDone] = useState<Answer | null>(null)
  const sending = useSending<Answer>()
  const tags = wet.map(({ tag }) => tag).filter((tag) => !out.has(tag))
  const toggle = (tag: string): void => {
    const next = new Set(out)
    if (!next.delete(tag)) next.add(tag)
    setOut(next)
  }
  const felt = async (): Promise<void> => {
    if (tags.length === 0) return
    const body = { key, tags }
    const answer = await sending.send({ path: PATHS.feltDry, method: 'POST', body })
    if (answer === null) return
    setDone(answer)
    setKey(newKey())
    onFelt()
  }
  return (
    <div className="screens">
      <h1>{words.title}</h1>
      <p className="screens-lead">{words.lead}</p>
      {done !== null && (
        <div role="status">
          <p className="said">{words.done(done.dry.length)}</p>
          {done.not.map(({ tag, why }) => (
            <p key={tag}>{MANY_WORDS.coat.not(tag, why)}</p>
          ))}
        </div>
      )}
      {wet.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <fieldset className="choose">
          <legend>{words.chosen(tags.length)}</legend>
          <div className="entry-acts">
            <SecondAct onPress={() => setOut(new Set())}>{words.all}</SecondAct>
            <SecondAct onPress={() => setOut(new Set(wet.map(({ tag }) => tag)))}>
              {words.noneOfThem}
            </SecondAct>
          </div>
          <ul className="choose-list">
            {wet.map((screen) => (
              <li key={screen.tag}>
                <label className="choose-one">
                  <input
                    type="checkbox"
                    checked={!out.has(screen.tag)}
                    onChange={() => toggle(screen.tag)}
                  />
                  <span className="screen-line-tag">{screen.tag}</span>
                  <span className="soft">
                    {[screen.owner?.name, coatTimes(screen)].filter(Boolean).join(', ')}
                  </span>
                </label>
              </li>
            ))}
          </ul>
        </fieldset>
      )}
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <div className="entry-acts">
        {wet.length > 0 && (
          <Button busy={sending.isBusy} onPress={() => void felt()}>
            {words.act}
          </Button>
        )}
        <Link to={ROUTES.screens} className="second-act">
          <span>{SCREENS_WORDS.register}</span>
        </Link>
      </div>
    </div>
  )
}
