import { type ReactNode, useId, useState } from 'react'
import type { FirstDose } from '../../api/light.ts'
import type { Asked } from '../asked.ts'
import { doseText } from '../figures.ts'
import { Standing } from '../frame/Standing.tsx'
import { Cloth } from '../signs/Cloth.tsx'
import { NumberFrame } from '../signs/NumberFrame.tsx'
import { TenFrames } from '../signs/TenFrames.tsx'
import { FIRST_WORDS, LIGHT_WORDS } from '../words.ts'

export type FirstDosePictureProps = Readonly<{
  asked: Asked<FirstDose>
  /** What the lamp counts, as it was told. */
  countsIn: FirstDose['countsIn']
  onAgain: () => void
}>

/**
 * The first useful dose, and what one test strip would make of it. A dose in another unit than the
 * lamp's is none: why there is no other stands alone.
 */
export function FirstDosePicture({ asked, countsIn, onAgain }: FirstDosePictureProps): ReactNode {
  const { answer, now } = asked
  const dimmed = now === 'working' || now === 'refused'
  const isOther = now === 'refused' && answer?.countsIn !== countsIn
  return (
    <div className="first-dose" aria-busy={dimmed}>
      {answer !== null && !isOther && <Dose dose={answer} dimmed={dimmed} />}
      <Standing asked={asked} working={FIRST_WORDS.working} onAgain={onAgain} />
      <p className="unseen" aria-live="polite">
        {answer !== null && now === 'here' && spoken(answer)}
      </p>
    </div>
  )
}

function spoken({ medium, dose, countsIn, screensInTen }: FirstDose): string {
  const unit = LIGHT_WORDS.units[countsIn]
  const range = FIRST_WORDS.couldBe(unit, doseText(dose.low), doseText(dose.high))
  return `${FIRST_WORDS.thenBegin(medium)} ${doseText(dose.value)} ${range}. ${LIGHT_WORDS.inTen(screensInTen)}.`
}

function Dose({ dose: first, dimmed }: Readonly<{ dose: FirstDose; dimmed: boolean }>): ReactNode {
  const { medium, dose, countsIn, cloth, screensInTen, word, afterStrip } = first
  const unit = LIGHT_WORDS.units[countsIn]
  return (
    <>
      <NumberFrame
        lead={FIRST_WORDS.thenBegin(medium)}
        value={doseText(dose.value)}
        range={FIRST_WORDS.couldBe(unit, doseText(dose.low), doseText(dose.high))}
        dimmed={dimmed}
      />
      <div className={dimmed ? 'first-sure first-old' : 'first-sure'}>
        <Cloth
          cloth={cloth}
          doseLu={dose.value}
          unitWord={unit}
          rows="mixed"
          numbers={[dose.low, dose.high]}
        />
        <div className="in-ten">
          <TenFrames good={screensInTen} />
          <p>
            <strong>{LIGHT_WORDS.inTen(screensInTen)}</strong>
            {FIRST_WORDS.wouldComeOut}
            {FIRST_WORDS.thisIs(word)}
          </p>
        </div>
        <AfterStrip screensInTen={afterStrip.screensInTen} />
      </div>
    </>
  )
}

function AfterStrip({ screensInTen }: Readonly<{ screensInTen: number }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const id = useId()
  return (
    <div>
      <div className="in-ten">
        <TenFrames good={screensInTen} />
        <p>
          <strong>{FIRST_WORDS.afterStrip(screensInTen)}</strong>
          {FIRST_WORDS.afterStripMore}
          <button
            type="button"
            className="word-link"
            aria-expanded={isOpen}
            aria-controls={id}
            onClick={() => setOpen(!isOpen)}
          >
            {FIRST_WORDS.strip}
          </button>
        </p>
      </div>
      <p id={id} className="first-strip" hidden={!isOpen}>
        {FIRST_WORDS.stripHow}
      </p>
    </div>
  )
}
