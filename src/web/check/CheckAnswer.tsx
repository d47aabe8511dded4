import { type ReactNode, useId, useMemo, useState } from 'react'
import type { Inspection, Photo } from '../../api/photos.ts'
import { lengthText } from '../film/findingSays.ts'
import { ROUTES, useWay } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { Button, SecondAct } from '../signs/Button.tsx'
import { CheckPicture } from './CheckPicture.tsx'
import { CHECK_WORDS } from './checkWords.ts'
import { FaultEntry } from './FaultEntry.tsx'
import { faultGroups } from './faultGroups.ts'
import { HowItCame } from './HowItCame.tsx'

export type CheckAnswerProps = Readonly<{
  photo: Photo
  inspection: Inspection
  /** Takes another photo. */
  another: ReactNode
  /** Shows by hand where the film lies. */
  byHand: ReactNode
  onAgain: () => void
}>

/** Verdict first, then where to look as pairs, what the photo cannot show, and what to do. */
export function CheckAnswer(props: CheckAnswerProps): ReactNode {
  const { photo, inspection, another, byHand } = props
  const units = useUnits()
  const groups = useMemo(() => faultGroups(inspection.findings), [inspection.findings])
  const [focused, setFocused] = useState<number | null>(null)
  const { mirrored, verdict, resolutionUm, warnings } = inspection
  return (
    <div className="check-halves">
      <div className="photo-head">
        <h1>{CHECK_WORDS.title}</h1>
        <p className="photo-lead">
          {mirrored && <strong>{`${CHECK_WORDS.mirrored} `}</strong>}
          {CHECK_WORDS.verdicts[verdict]}
        </p>
      </div>
      <CheckPicture {...{ inspection, focused }} />
      <div className="check-words">
        {groups.length > 0 && (
          <ol className="faults" aria-label={CHECK_WORDS.listLabel}>
            {groups.map((group) => (
              <FaultEntry
                key={group.kind}
                {...{ group, inspection, units, focused }}
                onFocus={setFocused}
              />
            ))}
          </ol>
        )}
        <div className="small">
          <p>
            {!mirrored && `${CHECK_WORDS.rightWay} `}
            {CHECK_WORDS.cannot(lengthText(resolutionUm / 1000, units))}
          </p>
          {warnings.map((warning) => (
            <p key={warning}>{warning}</p>
          ))}
        </div>
        <Acts key={verdict} {...props} />
        <HowItCame photo={photo} inspection={inspection} />
        <div className="photo-acts">
          {verdict !== 'wash more' && another}
          {byHand}
        </div>
      </div>
    </div>
  )
}

type Told = 'sink' | 'print' | 'spot'
const NEXT = { good: 'print', 'wash more': 'sink', 'spot it': 'spot', 'make again': null } as const

/** The one thing to do next, by the verdict; and going on in spite of it. */
function Acts({ photo, inspection, another }: CheckAnswerProps): ReactNode {
  const { go } = useWay()
  const id = useId()
  const [told, setTold] = useState<Told | null>(null)
  const { verdict } = inspection
  const next = NEXT[verdict]
  const light = `${ROUTES.light}?${new URLSearchParams({ film: photo.film?.id ?? '' }).toString()}`
  return (
    <div className="check-acts">
      <div className="photo-acts">
        <Button
          {...(next === null ? {} : { expanded: told === next, controls: id })}
          onPress={() => {
            if (next === null) go(light)
            else setTold(told === next ? null : next)
          }}
        >
          {CHECK_WORDS.acts[verdict]}
        </Button>
        {verdict !== 'good' && (
          <SecondAct
            onPress={() => setTold(told === 'print' ? null : 'print')}
            expanded={told === 'print'}
            controls={id}
          >
            {CHECK_WORDS.asItIs}
          </SecondAct>
        )}
      </div>
      <div aria-live="polite" id={id}>
        {told !== null && (
          <div className="cautions">
            {CHECK_WORDS[told].map((line) => (
              <p key={line}>{line}</p>
            ))}
            {told === 'sink' && another}
          </div>
        )}
      </div>
      {inspection.spottingList !== null && (
        <a className="second-act" href={inspection.spottingList}>
          <span>{CHECK_WORDS.list}</span>
        </a>
      )}
    </div>
  )
}
