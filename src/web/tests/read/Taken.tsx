import { type ReactNode, useEffect, useRef } from 'react'
import type { ReadingTaken } from '../../../api/tests.ts'
import { fabricText } from '../../fabricText.ts'
import { Link, ROUTES, useWay } from '../../router.tsx'
import { useUnits } from '../../shop.tsx'
import { Button, SecondAct } from '../../signs/Button.tsx'
import { TESTS_TITLES } from '../../words.ts'
import { type SetUp, withWords } from '../setUp.ts'
import { READ_WORDS } from './readWords.ts'

/** A reading was taken down: what it moved, and the way back. */
export function Taken({
  taken,
  setUp,
  onAnother,
}: Readonly<{ taken: ReadingTaken; setUp: SetUp; onAnother: () => void }>): ReactNode {
  const { go } = useWay()
  const title = useRef<HTMLHeadingElement>(null)
  useEffect(() => title.current?.focus(), [])
  const { reading, moved } = taken
  const units = useUnits()
  return (
    <div className="taken">
      <h1 ref={title} tabIndex={-1}>
        {READ_WORDS.taken}
      </h1>
      <p className="taken-says">{reading.says}</p>
      <p className="soft">{fabricText(reading.about, units)}</p>
      {moved.length === 0 ? (
        <p>{READ_WORDS.unmoved}</p>
      ) : (
        <>
          <h2>{READ_WORDS.moved}</h2>
          <ul className="taken-moved">
            {moved.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
      {reading.doubts.length > 0 && (
        <>
          <h2>{READ_WORDS.doubts}</h2>
          {reading.doubts.map((doubt) => (
            <p key={doubt} className="reading-doubt">
              {doubt}
            </p>
          ))}
        </>
      )}
      <div className="read-acts">
        <Button onPress={() => go(withWords(ROUTES.tests, setUp))}>{TESTS_TITLES.tests}</Button>
        <SecondAct onPress={onAnother}>{READ_WORDS.another}</SecondAct>
        <Link to={withWords(ROUTES.readings, setUp)} className="second-act">
          <span>{READ_WORDS.toReadings}</span>
        </Link>
      </div>
    </div>
  )
}
