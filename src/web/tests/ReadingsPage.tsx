import { type ReactNode, useMemo, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { ReadingLine, ReadingList, Tests } from '../../api/tests.ts'
import { fabricText } from '../fabricText.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import { useAsked } from '../useAsked.ts'
import { Back } from './Back.tsx'
import { BeliefDose } from './BeliefDose.tsx'
import { dayWords, today } from './days.ts'
import './readings.css'
import { READINGS_WORDS } from './readingsWords.ts'
import { StrikeOut } from './StrikeOut.tsx'
import { type SetUp, setUpOf, withWords } from './setUp.ts'

/** A number opened: the readings it rests on. */
export function ReadingsPage(): ReactNode {
  const { search, go } = useWay()
  const setUp = useMemo(() => setUpOf(search), [search])
  const medium = new URLSearchParams(search).get('medium') ?? ''
  const [tests, askTestsAgain] = useAsked<Tests>(
    useMemo(() => ({ path: withWords(PATHS.tests, setUp) }), [setUp]),
  )
  const [list, askAgain] = useAsked<ReadingList>(
    useMemo(
      () => ({ path: withWords(PATHS.readings, { ...setUp, medium, limit: '500' }) }),
      [setUp, medium],
    ),
  )
  const [moved, setMoved] = useState<readonly string[] | null>(null)
  const believed = tests.answer?.media.find((belief) => belief.medium.id === medium)
  return (
    <div className="readings">
      <div className="readings-head">
        <Back setUp={setUp} />
        <h1>{READINGS_WORDS.title}</h1>
        <p className="tests-sentence">
          {READINGS_WORDS.lead}{' '}
          <Blank
            label={READINGS_WORDS.medium}
            value={medium}
            choices={tests.answer?.choices.media ?? []}
            open={READINGS_WORDS.all}
            onChoice={(chosen) =>
              go(withWords(ROUTES.readings, { ...setUp, medium: chosen }), 'replace')
            }
          />{' '}
          {READINGS_WORDS.restsOn}
        </p>
        {tests.answer !== null && <Where asked={tests.answer.asked} />}
        {believed !== undefined && (
          <p className="readings-dose">
            <BeliefDose belief={believed} />
          </p>
        )}
        {list.answer !== null && list.answer.alone !== null && (
          <p className="small">{list.answer.alone}</p>
        )}
        <Standing asked={list} working={READINGS_WORDS.working} onAgain={askAgain} />
        <Moved lines={moved} />
      </div>
      {list.answer !== null && (
        <Lines
          lines={list.answer.readings}
          setUp={setUp}
          onStruck={(sentences) => {
            setMoved(sentences)
            askAgain()
            askTestsAgain()
          }}
        />
      )}
    </div>
  )
}

function Where({ asked }: Readonly<{ asked: Tests['asked'] }>): ReactNode {
  const { fabric, batch, unit } = asked
  return <p className="soft">{READINGS_WORDS.setUp(fabric.name, batch?.name ?? null, unit.name)}</p>
}

/** What a striking out moved, in sentences. */
function Moved({ lines }: Readonly<{ lines: readonly string[] | null }>): ReactNode {
  return (
    <div aria-live="polite" className="moved">
      {lines !== null &&
        (lines.length === 0 ? (
          <p>{READINGS_WORDS.unmoved}</p>
        ) : (
          <>
            <p>{READINGS_WORDS.moved}</p>
            <ul>
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </>
        ))}
    </div>
  )
}

function Lines({
  lines,
  setUp,
  onStruck,
}: Readonly<{
  lines: readonly ReadingLine[]
  setUp: SetUp
  onStruck: (moved: readonly string[]) => void
}>): ReactNode {
  const { tell } = READINGS_WORDS
  if (lines.length === 0) {
    return (
      <div className="readings-none">
        <p>{READINGS_WORDS.none}</p>
        <p>{READINGS_WORDS.noneMore}</p>
        <Link to={withWords(ROUTES.read, { ...setUp, what: 'wedge' })} className="second-act">
          <span>{tell.wedge}</span>
        </Link>
      </div>
    )
  }
  const struck = lines.filter((line) => line.struck !== null).length
  return (
    <>
      <p className="small">{READINGS_WORDS.count(lines.length, struck)}</p>
      <ul className="reading-lines">
        {lines.map((line) => (
          <Line key={line.id} line={line} onStruck={onStruck} />
        ))}
      </ul>
    </>
  )
}

function Line({
  line,
  onStruck,
}: Readonly<{ line: ReadingLine; onStruck: (moved: readonly string[]) => void }>): ReactNode {
  const { says, about, struck, doubts } = line
  const near = today()
  const units = useUnits()
  return (
    <li className={struck === null ? 'reading-line' : 'reading-line reading-struck'}>
      <p className="reading-day">{dayWords(line.on, near)}</p>
      <div className="reading-words">
        <p className="reading-says">{struck === null ? says : <s>{says}</s>}</p>
        <p className="small">{fabricText(about, units)}</p>
        {doubts.map((doubt) => (
          <p key={doubt} className="reading-doubt">
            {doubt}
          </p>
        ))}
        {struck !== null && (
          <p className="reading-reason">
            {READINGS_WORDS.struck(dayWords(struck.on, near), struck.reason)}
          </p>
        )}
        {struck === null && <StrikeOut line={line} onStruck={onStruck} />}
      </div>
    </li>
  )
}
