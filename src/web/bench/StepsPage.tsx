import { type ReactNode, useState } from 'react'
import type { StepList } from '../../api/bench.ts'
import { PATHS, stepListPath } from '../../api/paths.ts'
import type { Choices } from '../../api/shop.ts'
import { KEPT_STEPS, listProblem } from '../../core/runSheet/ownList.ts'
import { STEP_NAMES } from '../../core/runSheet/step.ts'
import { Standing } from '../frame/Standing.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'
import { FRAME_WORDS } from '../words.ts'
import { StepRow } from './StepRow.tsx'
import { draftOf, listOf, type StepDraft, usualSteps, withOwn } from './stepDraft.ts'
import './steps.css'
import { STEPS_WORDS } from './stepsWords.ts'

const CHOICES = { path: PATHS.choices }

/** The shop's own list of steps for a unit. */
export function StepsPage(): ReactNode {
  const [choices] = useAsked<Choices>(CHOICES)
  const [unit, setUnit] = useState<string | null>(null)
  const units = choices.answer?.units ?? []
  const chosen = unit ?? units[0]?.id ?? null
  const path = chosen === null ? null : stepListPath(chosen)
  const [asked, askAgain] = useAsked<StepList>(path === null ? null : { path })
  return (
    <div className="steps">
      <h1>{FRAME_WORDS.stepsTitle}</h1>
      <p>
        {STEPS_WORDS.lead}
        <Blank
          label={STEPS_WORDS.unit}
          value={chosen ?? ''}
          choices={units.map(({ id, name }) => ({ id, name }))}
          onChoice={setUnit}
        />
        .
      </p>
      <Standing asked={asked} working={STEPS_WORDS.fetching} onAgain={askAgain} />
      {asked.answer !== null && chosen !== null && (
        <Steps key={`${chosen} ${String(asked.answeredAt)}`} unit={chosen} told={asked.answer} />
      )}
    </div>
  )
}

function Steps({ unit, told }: Readonly<{ unit: string; told: StepList }>): ReactNode {
  const usual = usualSteps(told.steps)
  const [drafts, setDrafts] = useState<readonly StepDraft[]>(() => told.steps.map(draftOf))
  const [says, setSays] = useState<string | null>(null)
  const sending = useSending<StepList>()
  const list = listOf(drafts, { usual })
  const problem = listProblem(list)
  const change = (next: readonly StepDraft[]): void => {
    setSays(null)
    sending.forget()
    setDrafts(next)
  }
  const send = async (isUsual: boolean): Promise<void> => {
    const body = { unit, list: isUsual ? null : list }
    const answer = await sending.send({ path: PATHS.stepLists, method: 'POST', body })
    if (answer === null) return
    setDrafts(answer.steps.map(draftOf))
    setSays(isUsual ? STEPS_WORDS.doneUsual : STEPS_WORDS.done)
  }
  const names = drafts.map(({ name }) => name)
  const out = usual.filter(({ name }) => !names.includes(name))
  const putBack = (name: string): void => {
    const step = usual.find((each) => each.name === name)
    if (step === undefined) return
    const place = placeOf(name)
    const after = drafts.findLastIndex((draft) => {
      const own = placeOf(draft.name)
      return own !== -1 && own < place
    })
    change(drafts.toSpliced(after + 1, 0, draftOf(step)))
  }
  return (
    <>
      <p className="small">{STEPS_WORDS.first24}</p>
      <ol className="steps-list">
        {drafts.map((draft, at) => (
          <StepRow
            key={draft.name}
            number={at + 1}
            draft={draft}
            isKept={(KEPT_STEPS as readonly string[]).includes(draft.name)}
            onChange={(changed) => change(drafts.with(at, changed))}
            onOut={() => change(drafts.toSpliced(at, 1))}
            onAdd={() => change(withOwn(drafts, at))}
          />
        ))}
      </ol>
      {out.map(({ name, title }) => (
        <SecondAct key={name} onPress={() => putBack(name)}>
          {STEPS_WORDS.putBack(title)}
        </SecondAct>
      ))}
      {(problem ?? sending.message) !== null && (
        <p role="alert" className="entry-wrong">
          {problem ?? sending.message}
        </p>
      )}
      <p className="said" role="status">
        {says}
      </p>
      <div className="entry-acts">
        <Button onPress={() => void send(false)} busy={sending.isBusy || problem !== null}>
          {STEPS_WORDS.act}
        </Button>
        <SecondAct onPress={() => void send(true)}>{STEPS_WORDS.usual}</SecondAct>
      </div>
    </>
  )
}

function placeOf(name: string): number {
  return (STEP_NAMES as readonly string[]).indexOf(name)
}
