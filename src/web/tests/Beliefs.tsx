import type { ReactNode } from 'react'
import type { Tests } from '../../api/tests.ts'
import { doseScale, scaleNumbers } from '../../workflow/cloth/doseScale.ts'
import { doseText, scaleText } from '../figures.ts'
import { Link, ROUTES } from '../router.tsx'
import { Cloth } from '../signs/Cloth.tsx'
import { useWidth } from '../signs/useWidth.ts'
import { LIGHT_WORDS } from '../words.ts'
import { BeliefDose } from './BeliefDose.tsx'
import { type SetUp, withWords } from './setUp.ts'
import { TESTS_WORDS } from './testsWords.ts'

const CLOTH_PX = 50

/** A cloth per medium, all on one scale: how sure, seen as clean or frayed. */
export function Beliefs({ tests, setUp }: Readonly<{ tests: Tests; setUp: SetUp }>): ReactNode {
  return (
    <div className="beliefs">
      <ul className="belief-rows">
        {tests.media.map((belief) => (
          <Row key={belief.medium.id} belief={belief} tests={tests} setUp={setUp} />
        ))}
      </ul>
      <Scale scale={tests.scale} />
      <p className="small belief-legend">{TESTS_WORDS.legend}</p>
    </div>
  )
}

function Row({
  belief,
  tests,
  setUp,
}: Readonly<{ belief: Tests['media'][number]; tests: Tests; setUp: SetUp }>): ReactNode {
  const { medium, heard, cloth } = belief
  const works = belief.verdict === 'works'
  return (
    <li className="belief">
      <div className="belief-name">
        <h2>{medium.name}</h2>
        <p>{heard}</p>
      </div>
      <div className="belief-cloth">
        <Cloth
          bare
          cloth={{ ...cloth, ...tests.scale }}
          doseLu={works ? belief.dose.value : 0}
          unitWord={LIGHT_WORDS.units[tests.countsIn]}
          height={CLOTH_PX}
          rows="mixed"
        />
      </div>
      <Link
        to={withWords(ROUTES.readings, { ...setUp, medium: medium.id })}
        className="belief-dose"
      >
        <BeliefDose belief={belief} />
        <span className="unseen">{TESTS_WORDS.evidence(medium.name)}</span>
      </Link>
    </li>
  )
}

/** The doses under the cloths, once for all of them. */
function Scale({ scale }: Readonly<{ scale: Tests['scale'] }>): ReactNode {
  const [box, widthPx] = useWidth<HTMLDivElement>(350)
  const numbers = scaleNumbers(doseScale(scale, widthPx), {
    first: [],
    keepFreeLu: null,
    apartPx: 14 + 11 * doseText(scale.highLu).length,
  })
  return (
    <div className="belief-scale" ref={box} aria-hidden="true">
      <svg className="plot-picture" viewBox={`0 0 ${widthPx} 24`} height={24}>
        {numbers.map(({ doseLu, middlePx }) => (
          <text key={doseLu} x={middlePx} y={18} textAnchor="middle">
            {scaleText(doseLu)}
          </text>
        ))}
      </svg>
    </div>
  )
}
