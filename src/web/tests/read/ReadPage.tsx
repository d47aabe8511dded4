import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react'
import { PATHS } from '../../../api/paths.ts'
import type { Choices } from '../../../api/shop.ts'
import type { GradePictures, ReadingTaken, Tests } from '../../../api/tests.ts'
import type { Asked } from '../../asked.ts'
import { Standing } from '../../frame/Standing.tsx'
import { OnGlass } from '../../glass/OnGlass.tsx'
import { Link, ROUTES, useWay } from '../../router.tsx'
import { Button } from '../../signs/Button.tsx'
import { useAsked } from '../../useAsked.ts'
import { LIGHT_WORDS } from '../../words.ts'
import { Back } from '../Back.tsx'
import { ByPhoto } from '../byPhoto/ByPhoto.tsx'
import { DayEntry } from '../DayEntry.tsx'
import { dayWords, today } from '../days.ts'
import { Entry } from '../Entry.tsx'
import { type SetUp, setUpOf, withWords } from '../setUp.ts'
import { useSending } from '../useSending.ts'
import { Circumstances } from './Circumstances.tsx'
import { type Draft, type Kind, readingOf, type Wrong } from './draft.ts'
import { firstDraft, keepDraft } from './firstDraft.ts'
import { GradeBy } from './GradeBy.tsx'
import { Grades, type GradesProps } from './Grades.tsx'
import { keptStrip } from './plannedStrip.ts'
import './read.css'
import { READ_WORDS } from './readWords.ts'
import { StripEntry } from './StripEntry.tsx'
import { Taken } from './Taken.tsx'
import { WedgeEntry } from './WedgeEntry.tsx'

const CHOICES = { path: PATHS.choices }
const KINDS = ['wedge', 'strip', 'outcome'] as const
const NOTHING_WRONG: Wrong = {}

/** Telling what a wedge, a strip or a finished screen said. */
export function ReadPage(): ReactNode {
  const { search } = useWay()
  const setUp = useMemo(() => setUpOf(search), [search])
  const what = new URLSearchParams(search).get('what')
  const kind = KINDS.find((each) => each === what) ?? 'wedge'
  const [choices, askAgain] = useAsked<Choices>(CHOICES)
  const [taken, setTaken] = useState<ReadingTaken | null>(null)
  if (taken !== null) {
    return <Taken taken={taken} setUp={setUp} onAnother={() => setTaken(null)} />
  }
  return (
    <div className="read">
      <div className="read-head">
        <Back setUp={setUp} />
        <h1>{READ_WORDS.title[kind]}</h1>
        <Kinds kind={kind} setUp={setUp} />
        <Standing asked={choices} working={READ_WORDS.fetching} onAgain={askAgain} />
      </div>
      {choices.answer !== null && (
        <Telling kind={kind} choices={choices.answer} search={search} onTaken={setTaken} />
      )}
    </div>
  )
}

function Kinds({ kind, setUp }: Readonly<{ kind: Kind; setUp: SetUp }>): ReactNode {
  return (
    <nav className="kinds" aria-label={READ_WORDS.kindsLabel}>
      {KINDS.map((each) => (
        <Link
          key={each}
          to={withWords(ROUTES.read, { ...setUp, what: each })}
          current={each === kind}
        >
          <span>{READ_WORDS.kinds[each]}</span>
        </Link>
      ))}
    </nav>
  )
}

type TellingProps = Readonly<{
  kind: Kind
  choices: Choices
  search: string
  onTaken: (taken: ReadingTaken) => void
}>

function Telling({ kind, choices, search, onTaken }: TellingProps): ReactNode {
  const [strip] = useState(keptStrip)
  const [draft, setDraft] = useState(() =>
    firstDraft(choices, { search, today: today(), strip, kind }),
  )
  const [wrong, setWrong] = useState(NOTHING_WRONG)
  const form = useRef<HTMLFormElement>(null)
  const sending = useSending<ReadingTaken>()
  const { fabric, batch, unit } = draft
  const [tests] = useAsked<Tests>(
    useMemo(() => ({ path: withWords(PATHS.tests, { unit }) }), [unit]),
  )
  const [pictures] = useAsked<GradePictures>(
    useMemo(
      () => (kind === 'wedge' ? null : { path: withWords(PATHS.grades, { fabric, batch, unit }) }),
      [kind, fabric, batch, unit],
    ),
  )
  const change = (changed: Partial<Draft>): void => {
    const next = { ...draft, ...changed }
    setDraft(next)
    keepDraft(next)
    setWrong(NOTHING_WRONG)
  }
  const refused: Wrong =
    sending.message !== null && sending.field !== null ? { [sending.field]: sending.message } : {}
  const shown = { ...refused, ...wrong }
  useEffect(() => {
    if (Object.keys(wrong).length > 0) {
      form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus()
    }
  }, [wrong])
  const told = settled(draft, tests.answer)
  const countsIn = tests.answer?.countsIn ?? 'light units'
  const take = async (): Promise<void> => {
    const read = readingOf(told, kind)
    if (read.kind === 'wrong') {
      setWrong(read.wrong)
      return
    }
    const taken = await sending.send({ path: PATHS.readings, method: 'POST', body: read.reading })
    if (taken === null) return
    keepDraft(null)
    onTaken(taken)
  }
  return (
    <form
      ref={form}
      className="read-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (!sending.isBusy) void take()
      }}
    >
      <Circumstances
        kind={kind}
        draft={told}
        wrong={shown}
        choices={choices}
        setUps={tests.answer?.choices ?? null}
        countsIn={countsIn}
        onDraft={change}
      />
      <div className="entries">
        {kind !== 'strip' && (
          <Entry
            label={READ_WORDS.dose}
            value={draft.dose}
            figures="decimal"
            large
            unit={LIGHT_WORDS.units[countsIn]}
            wrong={shown['doseLu'] ?? null}
            onEntry={(dose) => change({ dose })}
          />
        )}
        <DayEntry
          label={READ_WORDS.day}
          value={draft.on}
          latest={today()}
          onEntry={(on) => change({ on })}
        />
      </div>
      <OnGlass
        title={READ_WORDS.place}
        unit={draft.unit}
        place={draft.place}
        onPlace={(place) => change({ place })}
      />
      {kind !== 'outcome' && <ByPhoto key={kind} {...{ kind, draft, countsIn }} onDraft={change} />}
      {kind === 'wedge' && <WedgeEntry draft={draft} wrong={shown} onDraft={change} />}
      {kind === 'strip' && (
        <StripEntry
          draft={draft}
          wrong={shown}
          pictures={shownPictures(pictures)}
          countsIn={countsIn}
          from={strip === null ? null : dayWords(strip.on, today())}
          onDraft={change}
        />
      )}
      {kind === 'outcome' && (
        <>
          <GradeBy by={draft.by} onBy={(by) => change({ by })} />
          <Grades
            large
            label={READ_WORDS.grade}
            told={draft.is}
            by={draft.by}
            pictures={shownPictures(pictures)}
            wrong={shown['is'] ?? null}
            onTold={(is) => change({ is })}
          />
        </>
      )}
      <Entry
        label={READ_WORDS.note}
        value={draft.note}
        example={READ_WORDS.noteExample}
        longest={2000}
        onEntry={(note) => change({ note })}
      />
      <p aria-live="polite" className="entry-wrong read-refused">
        {sending.message}
      </p>
      <Button kind="submit" busy={sending.isBusy}>
        {sending.isBusy ? READ_WORDS.saving : READ_WORDS.save}
      </Button>
    </form>
  )
}

function shownPictures({ answer, now }: Asked<GradePictures>): GradesProps['pictures'] {
  return answer ?? (now === 'working' || now === 'opening' ? 'on their way' : null)
}

/** Fabric and bucket as they stand in the sentence where nobody chose them. */
function settled(draft: Draft, tests: Tests | null): Draft {
  if (tests === null || draft.screen !== '') return draft
  const { fabric, batch } = tests.asked
  return {
    ...draft,
    fabric: draft.fabric || fabric.id,
    batch: draft.batch || (batch?.id ?? ''),
  }
}
