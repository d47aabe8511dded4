import type { ReactNode } from 'react'
import type { Cloth as ClothRecord } from '../../api/light.ts'
import { SIGN_WORDS } from '../words.ts'
import { Cloth } from './Cloth.tsx'
import { DRAWN, Icon } from './icons.tsx'
import { type MarkFate, MarkSign } from './MarkSign.tsx'
import { type Station, StationFrame } from './StationFrame.tsx'
import './signsPage.css'
import { TenFrames } from './TenFrames.tsx'
import { WaxRing } from './WaxRing.tsx'

/** A drawn example: ground holds from about one dose, marks stay open to about another. */
function example({
  holdLu,
  opensLu,
  doubt,
}: Readonly<{ holdLu: number; opensLu: number; doubt: number }>): ClothRecord {
  const doses = Array.from({ length: 33 }, (_, at) => 20 * 4 ** (at / 32))
  const rise = (steps: number): number => 1 / (1 + Math.exp(-steps))
  const holds = (doseLu: number): number => rise(Math.log(doseLu / holdLu) / doubt)
  const opens = (doseLu: number): number => rise(Math.log(opensLu / doseLu) / doubt)
  return {
    lowLu: 20,
    highLu: 80,
    along: [-2.6, -1.4, -0.6, 0, 0.6, 1.4, 2.6].map((steps) => opensLu * Math.exp(steps * doubt)),
    across: doses.map((doseLu) => ({ doseLu, share: holds(doseLu) })),
    good: doses.map((doseLu) => ({ doseLu, chance: holds(doseLu) * opens(doseLu) })),
    woven: doses.map((doseLu) => ({ doseLu, chance: holds(doseLu) * opens(doseLu) })),
  }
}

const CLOTHS: readonly Readonly<{ cloth: ClothRecord; doseLu: number }>[] = [
  { cloth: example({ holdLu: 32, opensLu: 60, doubt: 0.02 }), doseLu: 44 },
  { cloth: example({ holdLu: 34, opensLu: 56, doubt: 0.14 }), doseLu: 43 },
  { cloth: example({ holdLu: 35, opensLu: 48, doubt: 0.03 }), doseLu: 41 },
  { cloth: example({ holdLu: 54, opensLu: 34, doubt: 0.03 }), doseLu: 0 },
]

const FATES = Object.entries(SIGN_WORDS.markNames) as [MarkFate, readonly [string, string]][]
const STATIONS = Object.entries(SIGN_WORDS.frameNames) as [Station, string][]

/** Every sign with its meaning, in one place. */
export function SignsPage(): ReactNode {
  return (
    <div className="signs">
      <header>
        <h1>{SIGN_WORDS.title}</h1>
        <p className="small">{SIGN_WORDS.intro}</p>
      </header>
      <section>
        <h2>{SIGN_WORDS.cloth}</h2>
        <ul className="signs-row signs-cloths">
          {CLOTHS.map(({ cloth, doseLu }, at) => (
            <li key={SIGN_WORDS.cloths[at]}>
              <Cloth cloth={cloth} doseLu={doseLu} unitWord="" rows="mixed" height={58} bare />
              <p>{SIGN_WORDS.cloths[at]}</p>
            </li>
          ))}
        </ul>
      </section>
      <div className="signs-pair">
        <section>
          <h2>{SIGN_WORDS.marks}</h2>
          <ul className="signs-row">
            {FATES.map(([fate, [name, more]]) => (
              <li key={fate}>
                <MarkSign fate={fate} width={150} />
                <p>
                  <strong>{name}</strong>
                  <br />
                  {more}
                </p>
              </li>
            ))}
          </ul>
        </section>
        <section>
          <h2>{SIGN_WORDS.number}</h2>
          <p>
            {SIGN_WORDS.numberMore}{' '}
            {SIGN_WORDS.numberWords.map(([word, chance], at) => (
              <span key={word}>
                <strong>{word}</strong> ({chance}){at < 3 ? ', ' : '.'}
              </span>
            ))}
          </p>
          <p className="signs-ring">
            <WaxRing number={1} />
            <span>
              <strong>{SIGN_WORDS.ring}.</strong> {SIGN_WORDS.ringMore}
            </span>
          </p>
        </section>
        <section>
          <h2>{SIGN_WORDS.frames}</h2>
          <ul className="signs-row signs-frames">
            {STATIONS.map(([state, name]) => (
              <li key={state}>
                <StationFrame state={state} size={56} />
                <p>{name}</p>
              </li>
            ))}
          </ul>
        </section>
        <section>
          <h2>{SIGN_WORDS.ten}</h2>
          <p className="signs-ring">
            <TenFrames good={8} />
            <span>{SIGN_WORDS.tenMore}</span>
          </p>
        </section>
      </div>
      <section>
        <h2>{SIGN_WORDS.things}</h2>
        <ul className="signs-row signs-things">
          {DRAWN.map((drawing) => (
            <li key={drawing}>
              <Icon of={drawing} size={48} />
              <p>{drawing}</p>
            </li>
          ))}
        </ul>
      </section>
    </div>
  )
}
