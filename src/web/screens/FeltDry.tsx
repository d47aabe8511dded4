import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { FeltDry as Answer, Register } from '../../api/register.ts'
import { newKey } from '../newKey.ts'
import { SecondAct } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { ManyForm, ScreenTick } from './ManyForm.tsx'
import { coatTimes } from './screenSays.ts'
import './screens.css'
import { MANY_WORDS } from './screensWords.ts'

/** Coats that nobody has felt yet, and which of them are dry now: how long they took counts. */
export function FeltDry({
  register,
  onFelt,
}: Readonly<{ register: Register; onFelt: () => void }>): ReactNode {
  const words = MANY_WORDS.dry
  const wet = register.screens.filter(
    ({ state, coat }) => state === 'coated' && coat?.isToFeel === true,
  )
  const [out, setOut] = useState<ReadonlySet<string>>(() => notDue(wet, Date.now()))
  const [isNone, setNone] = useState(false)
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
    setNone(tags.length === 0)
    if (tags.length === 0) return
    const body = { key, tags }
    const answer = await sending.send({ path: PATHS.feltDry, method: 'POST', body })
    if (answer === null) return
    setDone(answer)
    setKey(newKey())
    scrollTo(0, 0)
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
                <ScreenTick
                  tag={screen.tag}
                  says={[screen.owner?.name, coatTimes(screen)].filter(Boolean).join('. ')}
                  isOn={!out.has(screen.tag)}
                  onToggle={() => toggle(screen.tag)}
                />
              </li>
            ))}
          </ul>
        </fieldset>
      )}
      <ManyForm
        says={sending.message ?? (isNone && tags.length === 0 ? MANY_WORDS.coat.missing : null)}
        act={
          wet.length === 0
            ? null
            : { word: words.act, isBusy: sending.isBusy, onPress: () => void felt() }
        }
      />
    </div>
  )
}

/** Those that are not meant to be dry yet: who felt that they are says so one by one. */
function notDue(wet: Register['screens'], nowMs: number): ReadonlySet<string> {
  const late = wet.filter(({ coat }) => Date.parse(coat?.dryAt ?? '') > nowMs)
  return new Set(late.map(({ tag }) => tag))
}
