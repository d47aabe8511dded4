import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Accepted, Tests } from '../../api/tests.ts'
import type { PaperName } from '../../workflow/papers/paperSizes.ts'
import { Link, ROUTES } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { DayEntry } from './DayEntry.tsx'
import { dayWords, today } from './days.ts'
import { NewBucket } from './NewBucket.tsx'
import { usualPaper, WALL_PAPERS } from './papers.ts'
import { type SetUp, saidOnly, withWords } from './setUp.ts'
import { TESTS_WORDS } from './testsWords.ts'
import { useSending } from './useSending.ts'

export type AroundTestsProps = Readonly<{
  tests: Tests
  setUp: SetUp
  onDay: (day: string) => void
  /** Something was taken down that may move what is believed. */
  onMoved: () => void
}>

/** What stands round the beliefs: the days before, the wall, the lamp, old notes. */
export function AroundTests({ tests, setUp, onDay, onMoved }: AroundTestsProps): ReactNode {
  const { reference, on } = tests
  return (
    <div className="around">
      <Reference {...{ reference, on, setUp, onMoved }} isNow={tests.now} />
      <DayEntry
        label={TESTS_WORDS.asOn}
        value={tests.now ? '' : on}
        latest={today()}
        onEntry={(day) => onDay(day === today() ? '' : day)}
      />
      <WallChart setUp={setUp} />
      <div className="around-links">
        <Go to={withWords(ROUTES.readings, setUp)}>{TESTS_WORDS.readings}</Go>
        <Go to={withWords(ROUTES.notes, setUp)}>{TESTS_WORDS.notes}</Go>
        <Go to={withWords(ROUTES.lamp, { unit: setUp.unit })}>{TESTS_WORDS.lamp}</Go>
        <Go to={withWords(ROUTES.evenness, { unit: setUp.unit })}>{TESTS_WORDS.evenness}</Go>
        <NewBucket onAdded={onMoved} />
      </div>
    </div>
  )
}

function Go({ to, children }: Readonly<{ to: string; children: ReactNode }>): ReactNode {
  return (
    <Link to={to} className="second-act">
      <span>{children}</span>
    </Link>
  )
}

function Reference({
  reference,
  on,
  isNow,
  setUp,
  onMoved,
}: Pick<AroundTestsProps, 'setUp' | 'onMoved'> &
  Readonly<{ reference: Tests['reference']; on: string; isNow: boolean }>): ReactNode {
  const sending = useSending<Accepted>()
  const [said, setSaid] = useState<string | null>(null)
  const accept = async (): Promise<void> => {
    const answer = await sending.send({
      path: PATHS.reference,
      method: 'POST',
      body: saidOnly(setUp),
    })
    if (answer === null) return
    setSaid(TESTS_WORDS.accepted(dayWords(answer.acceptedOn, on)))
    onMoved()
  }
  const stands =
    reference === null
      ? TESTS_WORDS.notCharted
      : TESTS_WORDS.charted(dayWords(reference.acceptedOn, on))
  return (
    <div className="around-reference">
      <p aria-live="polite">{sending.message ?? said ?? stands}</p>
      {isNow && <SecondAct onPress={() => void accept()}>{TESTS_WORDS.accept}</SecondAct>}
    </div>
  )
}

/** All media with their doses, for the wall beside the lamp. */
function WallChart({ setUp }: Readonly<{ setUp: SetUp }>): ReactNode {
  const [paper, setPaper] = useState<PaperName>(usualPaper)
  return (
    <div className="around-wall">
      <p>
        {TESTS_WORDS.wall}{' '}
        <Blank
          label={TESTS_WORDS.wallLabel}
          value={paper}
          choices={WALL_PAPERS}
          onChoice={(id) => setPaper(id as PaperName)}
        />
      </p>
      <a className="second-act" href={withWords(PATHS.wallChart, { ...setUp, paper })}>
        <span>{TESTS_WORDS.wallFetch}</span>
      </a>
    </div>
  )
}
