import { type ReactNode, useId, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Inspection, Photo } from '../../api/photos.ts'
import type { Choices } from '../../api/shop.ts'
import type { ReadingTaken } from '../../api/tests.ts'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { saidOnly } from '../tests/setUp.ts'
import { useSending } from '../tests/useSending.ts'
import { DOSE, numberWritten, valueOf } from '../tests/written.ts'
import { useAsked } from '../useAsked.ts'
import { FIRST_WORDS } from '../words.ts'
import { CHECK_WORDS } from './checkWords.ts'
import { gradeSuggested } from './faultGroups.ts'

type Grade = keyof typeof FIRST_WORDS.outcome
const CHOICES = { path: PATHS.choices }
const GRADES = Object.entries(FIRST_WORDS.outcome).map(([id, name]) => ({ id, name }))

/** What the photo showed becomes a reading of the shop's, once somebody nods. */
export function HowItCame({
  photo,
  inspection,
}: Readonly<{ photo: Photo; inspection: Inspection }>): ReactNode {
  const id = useId()
  const [isOpen, setOpen] = useState(false)
  const [dose, setDose] = useState('')
  const [grade, setGrade] = useState<string>(gradeSuggested(inspection) ?? '')
  /** Null: the shop's usual ones. */
  const [where, setWhere] = useState<Where>({ screen: null, unit: null })
  const [choices] = useAsked<Choices>(isOpen ? CHOICES : null)
  const [taken, setTaken] = useState<ReadingTaken | null>(null)
  const sending = useSending<ReadingTaken>()
  const written = numberWritten(dose, DOSE)
  const doseLu = valueOf(written)
  const isGrade = grade in FIRST_WORDS.outcome
  const take = async (): Promise<void> => {
    if (doseLu === null || !isGrade || photo.film === null) return
    const body = {
      kind: 'outcome',
      film: photo.film.id,
      ...saidOnly({
        screen: where.screen ?? choices.answer?.usual.screen ?? '',
        unit: where.unit ?? choices.answer?.usual.unit ?? '',
      }),
      doseLu,
      is: { grade: grade as Grade },
      note: CHECK_WORDS.note,
    }
    setTaken(await sending.send({ path: PATHS.readings, method: 'POST', body }))
  }
  if (taken !== null) {
    return (
      <div className="cautions" role="status">
        <p>
          <strong>{CHECK_WORDS.taken}</strong>. {taken.reading.says}
        </p>
        {taken.moved.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
    )
  }
  return (
    <div className="check-tell">
      <SecondAct onPress={() => setOpen(!isOpen)} expanded={isOpen} controls={id}>
        {CHECK_WORDS.tell}
      </SecondAct>
      <div id={id} className="unfolded" hidden={!isOpen}>
        <p>{CHECK_WORDS.tellWhy}</p>
        <p className="sentence">
          {CHECK_WORDS.itCame}{' '}
          <BlankEntry
            label={CHECK_WORDS.dose}
            value={dose}
            open={CHECK_WORDS.doseOpen}
            numeric
            longest={7}
            wrong={written.kind === 'wrong' ? CHECK_WORDS.doseWrong : null}
            onEntry={setDose}
          />{' '}
          {CHECK_WORDS.onCounter}
          {choices.answer !== null && (
            <OnWhich choices={choices.answer} where={where} onWhere={setWhere} />
          )}
          {CHECK_WORDS.came}{' '}
          <Blank
            label={CHECK_WORDS.grade}
            value={grade}
            choices={GRADES}
            open={CHECK_WORDS.gradeOpen}
            onChoice={setGrade}
          />
          .
        </p>
        <p className="said" aria-live="polite">
          {sending.message ?? ''}
        </p>
        <Button busy={sending.isBusy || doseLu === null || !isGrade} onPress={() => void take()}>
          {CHECK_WORDS.takeDown}
        </Button>
      </div>
    </div>
  )
}

type Where = Readonly<{ screen: string | null; unit: string | null }>

/** On which screen and under which lamp: a dose is believed for those. */
function OnWhich({
  choices: { screens, units, usual },
  where,
  onWhere,
}: Readonly<{ choices: Choices; where: Where; onWhere: (where: Where) => void }>): ReactNode {
  return (
    <>
      {screens.length > 0 && (
        <>
          {CHECK_WORDS.on}{' '}
          <Blank
            label={CHECK_WORDS.screen}
            value={where.screen ?? usual.screen ?? ''}
            choices={screens.map((screen) => ({ ...screen, not: null }))}
            open={CHECK_WORDS.someScreen}
            onChoice={(screen) => onWhere({ ...where, screen })}
          />
        </>
      )}
      {units.length > 1 && (
        <>
          {CHECK_WORDS.under}{' '}
          <Blank
            label={CHECK_WORDS.lamp}
            value={where.unit ?? usual.unit}
            choices={units}
            onChoice={(unit) => onWhere({ ...where, unit })}
          />
        </>
      )}
    </>
  )
}
