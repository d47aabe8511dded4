import { type ReactNode, useMemo } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Tests } from '../../api/tests.ts'
import type { Asked } from '../asked.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../router.tsx'
import { Button } from '../signs/Button.tsx'
import { useAsked } from '../useAsked.ts'
import { AroundTests } from './AroundTests.tsx'
import { Beliefs } from './Beliefs.tsx'
import { Changed } from './Changed.tsx'
import { dayWords } from './days.ts'
import { GroundPlot } from './plots/GroundPlot.tsx'
import { SetUpBlanks } from './SetUpSentence.tsx'
import { type SetUp, setUpOf, withWords } from './setUp.ts'
import './tests.css'
import { TESTS_WORDS } from './testsWords.ts'

/** What we believe, from what, and how sure. */
export function TestsPage(): ReactNode {
  const { search, go } = useWay()
  const setUp = useMemo(() => setUpOf(search), [search])
  const on = new URLSearchParams(search).get('on') ?? ''
  const question = useMemo(() => ({ path: withWords(PATHS.tests, { ...setUp, on }) }), [setUp, on])
  const [asked, askAgain] = useAsked<Tests>(question)
  const change = (changed: Partial<SetUp> & { on?: string }): void =>
    go(withWords(ROUTES.tests, { ...setUp, on, ...changed }), 'replace')
  const tests = asked.answer
  return (
    <div className={`tests${isOld(asked) ? ' tests-old' : ''}`} aria-busy={isOld(asked)}>
      <div className="tests-left">
        <div className="tests-head">
          <h1>{TESTS_WORDS.title}</h1>
          {tests === null ? (
            <p className="soft">{TESTS_WORDS.nothing}</p>
          ) : (
            <p className="tests-sentence">
              {TESTS_WORDS.lead[tests.countsIn]} <SetUpBlanks tests={tests} onChange={change} />
            </p>
          )}
          <Standing asked={asked} working={TESTS_WORDS.working} onAgain={askAgain} />
          {tests !== null && <Notices tests={tests} onNow={() => change({ on: '' })} />}
        </div>
        {tests !== null && <Beliefs tests={tests} setUp={setUp} />}
      </div>
      {tests !== null && (
        <div className="tests-right">
          <Changed tests={tests} />
          <div className="tests-next">
            <GroundPlot tests={tests} />
            <Next tests={tests} setUp={setUp} />
          </div>
        </div>
      )}
      {tests !== null && (
        <AroundTests
          tests={tests}
          setUp={setUp}
          onDay={(day) => change({ on: day })}
          onMoved={askAgain}
        />
      )}
    </div>
  )
}

function isOld({ now }: Asked<unknown>): boolean {
  return now === 'working' || now === 'refused'
}

/** What has to be known before one reads on. */
function Notices({ tests, onNow }: Readonly<{ tests: Tests; onNow: () => void }>): ReactNode {
  const guesses = tests.media.every(({ word }) => word === 'a first guess')
  return (
    <>
      {!tests.now && (
        <p className="tests-then">
          <strong>{TESTS_WORDS.asItStood(dayWords(tests.on, ''))}</strong>{' '}
          <button type="button" className="word-link" onClick={onNow}>
            {TESTS_WORDS.backToNow}
          </button>
        </p>
      )}
      {guesses && <p>{TESTS_WORDS.firstGuesses}</p>}
      {tests.warnings.map((warning) => (
        <p key={warning}>{warning}</p>
      ))}
    </>
  )
}

/** The test worth most now, and what else one may have to tell. */
function Next({ tests, setUp }: Readonly<{ tests: Tests; setUp: SetUp }>): ReactNode {
  const { go } = useWay()
  const { next } = tests
  const strip = withWords(ROUTES.strip, {
    ...setUp,
    medium: next.medium.id,
    bands: String(next.bands),
  })
  const wedge = withWords(ROUTES.read, { ...setUp, what: 'wedge' })
  const [first, second] =
    next.kind === 'wedge'
      ? [
          { to: wedge, words: TESTS_WORDS.wedge },
          { to: strip, words: TESTS_WORDS.strip },
        ]
      : [
          { to: strip, words: TESTS_WORDS.strip },
          { to: wedge, words: TESTS_WORDS.wedge },
        ]
  return (
    <div className="next-test">
      {tests.now && <p>{next.sentence}</p>}
      <Button wide onPress={() => go(first.to)}>
        {first.words}
      </Button>
      <div className="next-tell">
        <Link to={second.to} className="second-act">
          <span>{second.words}</span>
        </Link>
        <Link to={withWords(ROUTES.read, { ...setUp, what: 'outcome' })} className="second-act">
          <span>{TESTS_WORDS.outcome}</span>
        </Link>
      </div>
    </div>
  )
}
