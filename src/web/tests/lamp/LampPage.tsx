import { type ReactNode, useMemo } from 'react'
import type { Lamp } from '../../../api/lamp.ts'
import { PATHS } from '../../../api/paths.ts'
import type { Choices } from '../../../api/shop.ts'
import { borneText, doseText, scaleText } from '../../figures.ts'
import { Standing } from '../../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../../router.tsx'
import { Blank } from '../../signs/Blank.tsx'
import { useAsked } from '../../useAsked.ts'
import { Back } from '../Back.tsx'
import { dayWords, today } from '../days.ts'
import { withWords } from '../setUp.ts'
import { AgeingPlot } from './AgeingPlot.tsx'
import './lamp.css'
import { LAMP_WORDS } from './lampWords.ts'
import { MeterEntry } from './MeterEntry.tsx'
import { NewLamp } from './NewLamp.tsx'
import { TimingEntry } from './TimingEntry.tsx'
import { WarmUpPlot } from './WarmUpPlot.tsx'

const CHOICES = { path: PATHS.choices }

/** How a lamp warms up and ages, and what was timed. */
export function LampPage(): ReactNode {
  const { search, go } = useWay()
  const said = new URLSearchParams(search)
  const [unit, count] = [said.get('unit') ?? '', said.get('count') ?? '']
  const [choices] = useAsked<Choices>(CHOICES)
  const [asked, askAgain] = useAsked<Lamp>(
    useMemo(() => ({ path: withWords(PATHS.lamp, { unit }) }), [unit]),
  )
  const lamp = asked.answer
  const isOld = asked.now === 'working' || asked.now === 'refused'
  return (
    <div className={isOld ? 'lamp tests-old' : 'lamp'} aria-busy={isOld}>
      <div className="lamp-left">
        <Back setUp={{ unit }} />
        <h1>{LAMP_WORDS.title}</h1>
        {lamp === null ? (
          <p className="soft">{LAMP_WORDS.nothing}</p>
        ) : (
          <p className="tests-sentence">
            {LAMP_WORDS.lead}{' '}
            <Blank
              label={LAMP_WORDS.unit}
              value={lamp.unit.id}
              choices={choices.answer?.units ?? [{ ...lamp.unit, about: null, not: null }]}
              onChoice={(chosen) => go(withWords(ROUTES.lamp, { unit: chosen }), 'replace')}
            />
            . <Stands lamp={lamp} />
          </p>
        )}
        <Standing asked={asked} working={LAMP_WORDS.working} onAgain={askAgain} />
        {lamp !== null && <Known lamp={lamp} />}
      </div>
      {lamp !== null && (
        <div className="lamp-right">
          {lamp.countsIn === 'seconds' && (
            <MeterEntry key={lamp.unit.id} lamp={lamp} count={count} onTold={askAgain} />
          )}
          <TimingEntry unit={lamp.unit.id} countsIn={lamp.countsIn} onTaken={askAgain} />
          <NewLamp unit={lamp.unit.id} onTaken={askAgain} />
          <Link to={withWords(ROUTES.evenness, { unit })} className="second-act">
            <span>{LAMP_WORDS.even}</span>
          </Link>
        </div>
      )}
    </div>
  )
}

function Stands({ lamp }: Readonly<{ lamp: Lamp }>): ReactNode {
  const { lampHours, fittedOn } = lamp
  return LAMP_WORDS.stands(
    lampHours === null ? null : scaleText(lampHours),
    fittedOn === null ? null : dayWords(fittedOn, today()),
  )
}

function Known({ lamp }: Readonly<{ lamp: Lamp }>): ReactNode {
  const { warmUp, ageing, sentences, times } = lamp
  return (
    <>
      {sentences.length > 0 && (
        <ul className="lamp-says">
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      <section className="lamp-part">
        <h2>{LAMP_WORDS.warmUp}</h2>
        {warmUp === null ? (
          <p className="how">
            {lamp.countsIn === 'seconds' ? LAMP_WORDS.noWarmUpSeconds : LAMP_WORDS.noWarmUp}
          </p>
        ) : (
          <>
            <p className="how">
              {LAMP_WORDS.warmUpSays(
                scaleText(warmUp.coldPerSec.value),
                scaleText(warmUp.hotPerSec.value),
                borneText(warmUp.tauSec),
              )}
            </p>
            <WarmUpPlot curve={warmUp.curve} pairs={fitted(lamp)} />
          </>
        )}
      </section>
      {times.length > 0 && <Times lamp={lamp} />}
      <section className="lamp-part">
        <h2>{LAMP_WORDS.ageing}</h2>
        {ageing === null ? (
          <p className="how">{LAMP_WORDS.noAgeing}</p>
        ) : (
          <AgeingPlot ageing={ageing} />
        )}
      </section>
    </>
  )
}

/** The pairs that the line is drawn through: a cold start that lasts as long as the line does. */
function fitted({ timings, warmUp }: Lamp): Lamp['timings'][number]['pairs'] {
  const endSec = warmUp?.curve.at(-1)?.clockSec ?? 0
  const cold = timings
    .filter(({ from }) => from === 'cold')
    .toSorted((a, b) => (a.on < b.on ? 1 : -1))
  const lasts = ({ pairs }: Lamp['timings'][number]): boolean =>
    Math.abs(Math.max(...pairs.map(({ clockSec }) => clockSec)) - endSec) < 0.5
  return (cold.find(lasts) ?? cold.at(0))?.pairs ?? []
}

function Times({ lamp }: Readonly<{ lamp: Lamp }>): ReactNode {
  const { columns } = LAMP_WORDS
  return (
    <section className="lamp-part">
      <h2>{LAMP_WORDS.times}</h2>
      <div className="as-table">
        <table>
          <thead>
            <tr>
              <th scope="col">{columns.count}</th>
              <th scope="col">{columns.cold}</th>
              <th scope="col">{columns.hot}</th>
              <th scope="col">{columns.plain}</th>
            </tr>
          </thead>
          <tbody>
            {lamp.times.map(({ count, coldSec, hotSec, plainCount }) => (
              <tr key={count}>
                <th scope="row">{doseText(count)}</th>
                <td>{LAMP_WORDS.sec(doseText(coldSec))}</td>
                <td>{LAMP_WORDS.sec(doseText(hotSec))}</td>
                <td>{doseText(plainCount)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {lamp.countsIn === 'light units' && <p className="small">{LAMP_WORDS.timesMore}</p>}
    </section>
  )
}
