import { type ReactNode, useId } from 'react'
import type { GradePictures } from '../../../api/tests.ts'
import type { Draft, GradeDraft } from './draft.ts'
import './grades.css'
import { READ_WORDS } from './readWords.ts'

export type GradesProps = Readonly<{
  label: string
  told: GradeDraft
  by: Draft['by']
  /** Null: there are none, and words do. */
  pictures: GradePictures | 'on their way' | null
  onTold: (told: GradeDraft) => void
  wrong?: string | null
  /** The pictures may be as large as the page: there is only this one row. */
  large?: boolean
}>

/** How something came out: one of five pictures, or a tick for the ground and one for the marks. */
export function Grades(props: GradesProps): ReactNode {
  const { label, told, by, pictures, onTold, wrong = null, large = false } = props
  const id = useId()
  const why = wrong === null ? undefined : `${id}why`
  const { ground, marks, grounds, markings } = READ_WORDS
  return (
    <div className={large ? 'grades grades-large' : 'grades'}>
      {by === 'picture' ? (
        <Choice
          label={label}
          words={READ_WORDS.grades}
          chosen={told.grade}
          onChoice={(grade) => onTold({ ...told, grade })}
          pictures={pictures}
          why={why}
        />
      ) : (
        <div className="grade-ticks">
          <Choice
            label={`${label}: ${ground}`}
            lead={ground}
            words={grounds}
            chosen={told.ground}
            onChoice={(chosen) => onTold({ ...told, ground: chosen })}
            why={why}
          />
          <Choice
            label={`${label}: ${marks}`}
            lead={marks}
            words={markings}
            chosen={told.marks}
            onChoice={(chosen) => onTold({ ...told, marks: chosen })}
            why={why}
          />
        </div>
      )}
      {by === 'picture' && <GradeWords grade={told.grade} pictures={pictures} />}
      {wrong !== null && (
        <p className="entry-wrong" id={why}>
          {wrong}
        </p>
      )}
    </div>
  )
}

/** What the chosen picture stands for, in a sentence. */
function GradeWords({
  grade,
  pictures,
}: Readonly<{ grade: GradeDraft['grade']; pictures: GradesProps['pictures'] }>): ReactNode {
  const chosen = drawn(pictures).find((each) => each.grade === grade)
  return (
    <p aria-live="polite" className="small grade-means">
      {chosen?.words}
    </p>
  )
}

/** Some words to choose one of, as radio buttons; with a picture over each where there is one. */
function Choice<Word extends string>({
  label,
  lead,
  words,
  chosen,
  onChoice,
  pictures = null,
  why,
}: Readonly<{
  label: string
  lead?: string
  words: Readonly<Record<Word, string>>
  chosen: Word | ''
  onChoice: (word: Word) => void
  pictures?: GradesProps['pictures']
  why: string | undefined
}>): ReactNode {
  const name = useId()
  return (
    <div
      role="radiogroup"
      className={lead === undefined ? 'grade-row' : 'grade-row grade-words'}
      aria-label={label}
      aria-invalid={why !== undefined}
      aria-describedby={why}
    >
      {lead !== undefined && <span className="grade-lead">{lead}</span>}
      {(Object.entries(words) as [Word, string][]).map(([word, says]) => {
        const picture = drawn(pictures).find(({ grade }) => grade === word)
        return (
          <label key={word} className="grade">
            <input
              type="radio"
              name={name}
              checked={chosen === word}
              onChange={() => onChoice(word)}
            />
            {pictures !== null && (
              <span className="grade-picture">
                {picture !== undefined && <img src={picture.picture} alt="" />}
              </span>
            )}
            <span className="grade-word">{says}</span>
          </label>
        )
      })}
    </div>
  )
}

function drawn(pictures: GradesProps['pictures']): GradePictures['grades'] {
  return pictures === null || pictures === 'on their way' ? [] : pictures.grades
}
