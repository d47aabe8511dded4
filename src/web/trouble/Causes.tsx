import type { ReactNode } from 'react'
import type { Trouble } from '../../api/diagnosis.ts'
import { SecondAct } from '../signs/Button.tsx'
import { TenFrames } from '../signs/TenFrames.tsx'
import type { SaySign } from './TroublePage.tsx'
import { TROUBLE_WORDS } from './troubleWords.ts'

/** The likeliest causes: the first with what to do, the others by name. */
export function Causes({ trouble: { ranked } }: Readonly<{ trouble: Trouble }>): ReactNode {
  if (ranked.length === 0) return <p className="trouble-nothing">{TROUBLE_WORDS.nothing}</p>
  return (
    <ol className="trouble-ranked">
      {ranked.map(({ cause, says, chance, now, next, for: speaks, against }, at) => {
        const inTen = Math.round(chance * 10)
        return (
          <li key={cause} className={at === 0 ? 'trouble-first' : undefined}>
            <h2>{says}</h2>
            <p className="trouble-chance">
              <TenFrames good={inTen} />
              <span>{TROUBLE_WORDS.inTen(inTen)}</span>
            </p>
            {at < 2 && (
              <>
                <p>
                  <strong>{TROUBLE_WORDS.now}</strong>
                  {now}
                </p>
                <p>
                  <strong>{TROUBLE_WORDS.next}</strong>
                  {next}
                </p>
                {speaks.length > 0 && (
                  <p className="small">{TROUBLE_WORDS.because(speaks.join(' '))}</p>
                )}
                {against.length > 0 && (
                  <p className="small">{TROUBLE_WORDS.against(against.join(' '))}</p>
                )}
              </>
            )}
          </li>
        )
      })}
    </ol>
  )
}

/** What to ask of how it was made: answers that tell most of the cause. */
export function Questions({
  trouble: { asks },
  onSay,
}: Readonly<{ trouble: Trouble; onSay: SaySign }>): ReactNode {
  if (asks.length === 0) return null
  return (
    <section className="trouble-part">
      <h2>{TROUBLE_WORDS.asks}</h2>
      {asks.map(({ sign, says }) => (
        <div key={sign} role="group" aria-label={says} className="trouble-question">
          <p>{says}</p>
          <div className="trouble-acts">
            <SecondAct onPress={() => onSay(sign, 'yes')}>{TROUBLE_WORDS.isSo}</SecondAct>
            <SecondAct onPress={() => onSay(sign, 'no')}>{TROUBLE_WORDS.isNotSo}</SecondAct>
            <SecondAct onPress={() => onSay(sign, 'unsure')}>{TROUBLE_WORDS.unsure}</SecondAct>
          </div>
        </div>
      ))}
    </section>
  )
}

/** The one test, and its answer. */
export function TheTest({
  trouble: { test },
  onSay,
}: Readonly<{ trouble: Trouble; onSay: SaySign }>): ReactNode {
  return (
    <section className="trouble-part">
      <h2>{TROUBLE_WORDS.test}</h2>
      {test === null ? (
        <p>{TROUBLE_WORDS.noTest}</p>
      ) : (
        <>
          <p className="trouble-how">
            {TROUBLE_WORDS.minutes(test.minutes)}
            {test.how}
          </p>
          <p className="small">{TROUBLE_WORDS.tells(test.yes, test.no)}</p>
          <div className="trouble-acts">
            <SecondAct onPress={() => onSay(test.sign, 'yes')}>{TROUBLE_WORDS.yes}</SecondAct>
            <SecondAct onPress={() => onSay(test.sign, 'no')}>{TROUBLE_WORDS.no}</SecondAct>
          </div>
        </>
      )}
    </section>
  )
}
