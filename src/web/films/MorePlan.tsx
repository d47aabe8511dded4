import { type ReactNode, useId, useState } from 'react'
import type { FilmPlan, Sheet } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Figure, Words } from './Figure.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { InkLimits, limitsSay, type WrongIn } from './InkLimits.tsx'
import { type EdgeWay, edgeOf, SHEETS, sheetOf, withEdge } from './planFile.ts'

const { sentence, labels, more } = FILMS_WORDS

type MorePlanProps = Readonly<{
  file: PlanFile
  plan: FilmPlan
  /** What the newest change cannot be. */
  wrong: Readonly<{ message: string; field: string | null }> | null
  /** Of the shop, in solids. */
  inkLimit: number
  onPlan: (file: PlanFile) => void
  onInkLimit: (coverage: number) => void
}>

/** What is rarely changed, told in a sentence, and unfolded where it is. */
export function MorePlan(props: MorePlanProps): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const id = useId()
  return (
    <div className="plan-more">
      {!isOpen && <p className="soft">{told(props.plan)}</p>}
      <SecondAct expanded={isOpen} controls={id} onPress={() => setOpen(!isOpen)}>
        {isOpen ? more.fold : more.unfold}
      </SecondAct>
      <div id={id} className="unfolded" hidden={!isOpen}>
        {isOpen && <Settled {...props} />}
      </div>
    </div>
  )
}

/** Edges, white, sheets and marks as they stand. */
function told(plan: FilmPlan): string {
  const { underbase, marks, sheet, resolutionDpi } = plan
  const edge = edgeOf(plan)
  const mm = (um: number): string => String(Number((um / 1000).toFixed(3)))
  const sheets = SHEETS.find(({ id }) => id === sheetOf(plan))?.name ?? ''
  const hasMarks = Object.values(marks).some(Boolean)
  return (
    [
      more.toldEdges(
        FILMS_WORDS.edges[edge.way] + (edge.way === 'stay' ? '' : more.by(mm(edge.um))),
        underbase === null
          ? FILMS_WORDS.under.no
          : FILMS_WORDS.under.yes + more.choked(mm(underbase.chokeUm)),
      ),
      more.toldSheets(sheets + (sheet?.nest === true ? more.nested : ''), String(resolutionDpi)),
      hasMarks ? FILMS_WORDS.marks.all : FILMS_WORDS.marks.none,
      ...limitsSay(plan),
    ].join(', ') + '.'
  )
}

function Settled({ file, plan, wrong, onPlan, ...limits }: MorePlanProps): ReactNode {
  const edge = edgeOf(plan)
  const { underbase, marks } = plan
  const set = (change: PlanFile): void => onPlan({ ...file, ...change })
  const wrongIn = (...fields: readonly string[]): string | null =>
    wrong !== null && fields.includes(wrong.field ?? '') ? wrong.message : null
  return (
    <>
      <p>
        {more.dpi}
        <Figure
          label={labels.dpi}
          value={plan.resolutionDpi}
          wrong={wrongIn('resolutionDpi')}
          onFigure={(resolutionDpi) => set({ resolutionDpi })}
        />
        {more.dpiEnd}
        <Words
          label={labels.marks}
          value={Object.values(marks).some(Boolean) ? 'all' : 'none'}
          words={FILMS_WORDS.marks}
          onChoice={(which) => set({ marks: which === 'all' ? ALL_MARKS : null })}
        />
        .
      </p>
      <p>
        {more.edges}
        <Words
          label={labels.edge}
          value={edge.way}
          words={FILMS_WORDS.edges}
          onChoice={(way) => onPlan(withEdge(file, way as EdgeWay))}
        />
        {edge.way !== 'stay' && (
          <>
            {sentence.by}
            <Figure
              label={labels.edgeBy}
              value={edge.um / 1000}
              wrong={wrongIn('chokeUm', 'spreadUm')}
              onFigure={(mm) => onPlan(withEdge(file, edge.way, 1000 * mm))}
            />
            {' mm'}
          </>
        )}
        {sentence.under}
        <Words
          label={labels.under}
          value={underbase === null ? 'no' : 'yes'}
          words={FILMS_WORDS.under}
          onChoice={(is) => set({ underbase: is === 'yes' ? { name: 'white' } : null })}
        />
        {underbase !== null && (
          <>
            {sentence.choked}
            <Figure
              label={labels.underBy}
              value={underbase.chokeUm / 1000}
              wrong={wrongIn('underbase.chokeUm')}
              onFigure={(mm) => set({ underbase: { name: underbase.name, chokeUm: 1000 * mm } })}
            />
            {' mm'}
          </>
        )}
        {'. '}
        <span className="soft">{more.trap}</span>
      </p>
      <Sheets file={file} plan={plan} wrongIn={wrongIn} onPlan={onPlan} />
      <InkLimits {...limits} file={file} plan={plan} wrongIn={wrongIn} onPlan={onPlan} />
    </>
  )
}

const ALL_MARKS = { registration: true, label: true, scaleBar: true, stepStrip: true }

function Sheets({
  file,
  plan,
  wrongIn,
  onPlan,
}: Pick<MorePlanProps, 'file' | 'plan' | 'onPlan'> & Readonly<{ wrongIn: WrongIn }>): ReactNode {
  const { sheet } = plan
  const put = (change: Partial<Sheet>): void =>
    onPlan({ ...file, sheet: sheet === null ? null : { ...sheet, ...change } })
  const side = (key: 'widthMm' | 'heightMm' | 'overlapMm', label: string): ReactNode => (
    <Figure
      label={label}
      value={sheet?.[key] ?? 0}
      wrong={wrongIn(`sheet.${key}`)}
      onFigure={(mm) => put({ [key]: mm })}
    />
  )
  return (
    <p>
      {more.sheets}
      <Blank
        label={labels.sheets}
        value={sheetOf(plan)}
        choices={SHEETS}
        onChoice={(id) =>
          onPlan({ ...file, sheet: SHEETS.find((known) => known.id === id)?.sheet ?? null })
        }
      />
      {sheet !== null && sheetOf(plan) === 'other' && (
        <>
          {more.of}
          {side('widthMm', more.sheetWidth)}
          {more.times}
          {side('heightMm', more.sheetHeight)}
          {' mm'}
        </>
      )}
      {sheet !== null && (
        <>
          {', '}
          <Words
            label={more.nestLabel}
            value={sheet.nest === true ? 'nest' : 'alone'}
            words={more.nest}
            onChoice={(way) => put({ nest: way === 'nest' })}
          />
          {sheet.nest !== true && (
            <>
              {more.overlap}
              {side('overlapMm', more.overlapLabel)}
              {' mm, '}
              <Words
                label={more.cutLabel}
                value={sheet.cutMarks === true ? 'yes' : 'no'}
                words={more.cut}
                onChoice={(is) => put({ cutMarks: is === 'yes' })}
              />
            </>
          )}
        </>
      )}
      .
    </p>
  )
}
