import { type ReactNode, useEffect, useMemo } from 'react'
import type { LightAnswer } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import type { Choices } from '../../api/shop.ts'
import { doseText } from '../figures.ts'
import { Standing } from '../frame/Standing.tsx'
import { OnGlass } from '../glass/OnGlass.tsx'
import { useWay } from '../router.tsx'
import { useAsked } from '../useAsked.ts'
import { LIGHT_WORDS } from '../words.ts'
import { Answer } from './Answer.tsx'
import './light.css'
import { type Blanks, firstBlanks, lightPath, lightSearch } from './lightQuestion.ts'
import { Sentence } from './Sentence.tsx'

const CHOICES = { path: PATHS.choices }
/** Films that are being read are asked for again after so long. */
const FILMS_AGAIN_MS = 5000

/** How much light: the dose for this film on this screen now. */
export function LightPage(): ReactNode {
  const [choices, askAgain] = useAsked<Choices>(CHOICES)
  const waits = choices.answer?.films.some((film) => film.not !== null) ?? false
  useEffect(() => {
    if (!waits) return undefined
    const timer = setInterval(askAgain, FILMS_AGAIN_MS)
    return () => clearInterval(timer)
  }, [waits, askAgain])
  return (
    <div className="light">
      {choices.answer === null ? (
        <div className="light-words">
          <h1>{LIGHT_WORDS.title}</h1>
          <p className="soft">{LIGHT_WORDS.nothing}</p>
          <Standing asked={choices} working={LIGHT_WORDS.working} onAgain={askAgain} />
        </div>
      ) : isBare(choices.answer) ? (
        <div className="light-words">
          <h1>{LIGHT_WORDS.title}</h1>
          <p>{LIGHT_WORDS.noMedia}</p>
        </div>
      ) : (
        <Dose choices={choices.answer} />
      )}
    </div>
  )
}

function isBare({ media, films, bases, units }: Choices): boolean {
  return media.length + films.length === 0 || bases.length === 0 || units.length === 0
}

function Dose({ choices }: Readonly<{ choices: Choices }>): ReactNode {
  const { search, go } = useWay()
  const blanks = useMemo(() => firstBlanks(choices, search), [choices, search])
  const question = useMemo(() => ({ path: lightPath(blanks) }), [blanks])
  const [asked, askAgain] = useAsked<LightAnswer>(question)
  const change = (changed: Partial<Blanks>): void =>
    go(lightSearch({ ...blanks, ...changed }), 'replace')
  return (
    <>
      <div className="light-words">
        <h1>{LIGHT_WORDS.title}</h1>
        <Sentence choices={choices} blanks={blanks} onChange={change} />
        <Standing asked={asked} working={LIGHT_WORDS.working} onAgain={askAgain} />
        <p className="unseen" aria-live="polite">
          {asked.answer !== null && asked.now === 'here' && spoken(asked.answer)}
        </p>
      </div>
      {asked.answer !== null && (
        <Answer answer={asked.answer} dimmed={asked.now === 'working' || asked.now === 'refused'}>
          <OnGlass
            key={blanks.unit}
            title={LIGHT_WORDS.place}
            unit={blanks.unit}
            place={blanks.place}
            onPlace={(place) => change({ place })}
          />
        </Answer>
      )}
    </>
  )
}

/** The whole answer in one breath. */
function spoken({ verdict, dose, countsIn, word }: LightAnswer): string {
  if (verdict === 'no dose') return LIGHT_WORDS.noDose
  const { value, low, high } = {
    value: doseText(dose.value),
    low: doseText(dose.low),
    high: doseText(dose.high),
  }
  return `${LIGHT_WORDS.answered(value, LIGHT_WORDS.units[countsIn], low, high)}, ${word}`
}
