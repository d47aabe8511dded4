import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan, Mode } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import {
  type DotKind,
  dotKindOf,
  type EdgeWay,
  edgeOf,
  SHEETS,
  STOCKS,
  sheetOf,
  stockOf,
  withDots,
  withEdge,
  withMode,
} from './planFile.ts'

const { sentence, labels } = FILMS_WORDS

export type PlanSentenceProps = Readonly<{
  artwork: Artwork
  file: PlanFile
  /** The newest plan that could be read. */
  plan: FilmPlan
  /** What the newest change cannot be. */
  wrong: Readonly<{ message: string; field: string | null }> | null
  usual: Readonly<{ rulingPerCm: number; dotUm: number }>
  widthMm: number
  onPlan: (file: PlanFile) => void
  onFabric: (fabric: string) => void
}>

/** What films are wanted, as a sentence of blanks. */
export function PlanSentence(props: PlanSentenceProps): ReactNode {
  const { artwork, file, plan, wrong, usual, onPlan } = props
  const set = (change: PlanFile): void => onPlan({ ...file, ...change })
  const wrongIn = (...fields: readonly string[]): string | null =>
    wrong !== null && fields.includes(wrong.field ?? '') ? wrong.message : null
  return (
    <p className="sentence">
      {sentence.print}
      <Words
        label={labels.mode}
        value={plan.mode}
        words={FILMS_WORDS.modes}
        onChoice={(mode) => onPlan(withMode(file, mode as Mode, artwork.inks))}
      />
      {', '}
      <Figure
        label={labels.width}
        value={props.widthMm}
        wrong={wrongIn('widthMm', 'heightMm', 'scale')}
        onFigure={(widthMm) => {
          const { heightMm: _, scale: __, ...rest } = file
          onPlan({ ...rest, widthMm })
        }}
      />
      {' mm'}
      {sentence.wide}
      <Figure
        label={labels.dpi}
        value={plan.resolutionDpi}
        wrong={wrongIn('resolutionDpi')}
        onFigure={(resolutionDpi) => set({ resolutionDpi })}
      />
      {sentence.dpi}
      <Blank
        label={labels.fabric}
        value={artwork.fabric ?? ''}
        choices={artwork.fabrics}
        open={FILMS_WORDS.openFabric}
        onChoice={(id) => {
          if (id !== '') props.onFabric(id)
        }}
      />
      {sentence.fabric}
      <Words
        label={labels.dots}
        value={dotKindOf(plan.halftone)}
        words={FILMS_WORDS.dots}
        onChoice={(kind) => onPlan(withDots(file, kind as DotKind, usual))}
      />
      <DotSize file={file} plan={plan} wrongIn={wrongIn} onPlan={onPlan} />
      <Rest {...props} wrongIn={wrongIn} set={set} />
    </p>
  )
}

type WrongIn = (...fields: readonly string[]) => string | null

function DotSize({
  file,
  plan: { halftone },
  wrongIn,
  onPlan,
}: Pick<PlanSentenceProps, 'file' | 'plan' | 'onPlan'> &
  Readonly<{ wrongIn: WrongIn }>): ReactNode {
  const set = (change: object): void => onPlan({ ...file, halftone: { ...halftone, ...change } })
  if (halftone === null) return null
  if (halftone.kind === 'dot') {
    return (
      <>
        {sentence.at}
        <Figure
          label={labels.ruling}
          value={halftone.rulingPerCm}
          wrong={wrongIn('halftone.rulingPerCm')}
          onFigure={(rulingPerCm) => set({ rulingPerCm })}
        />
        {sentence.ruling}
      </>
    )
  }
  return (
    <>
      {sentence.at}
      <Figure
        label={labels.grain}
        value={(halftone.dotUm ?? 0) / 1000}
        wrong={wrongIn('halftone.dotUm')}
        onFigure={(mm) => set({ dotUm: 1000 * mm })}
      />
      {' mm'}
    </>
  )
}

function Rest({
  file,
  plan,
  onPlan,
  wrongIn,
  set,
}: PlanSentenceProps & Readonly<{ wrongIn: WrongIn; set: (change: PlanFile) => void }>): ReactNode {
  const edge = edgeOf(plan)
  const { underbase, marks } = plan
  const hasMarks = Object.values(marks).some(Boolean)
  return (
    <>
      {sentence.edges}
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
      {sentence.stock}
      <Blank
        label={labels.stock}
        value={stockOf(plan)}
        choices={STOCKS}
        onChoice={(id) => set({ paper: STOCKS.find((stock) => stock.id === id)?.lab ?? null })}
      />
      {sentence.sheets}
      <Blank
        label={labels.sheets}
        value={sheetOf(plan)}
        choices={SHEETS}
        onChoice={(id) => set({ sheet: SHEETS.find((sheet) => sheet.id === id)?.sheet ?? null })}
      />
      {sentence.marks}
      <Words
        label={labels.marks}
        value={hasMarks ? 'all' : 'none'}
        words={FILMS_WORDS.marks}
        onChoice={(which) => set({ marks: which === 'all' ? ALL_MARKS : null })}
      />
      {'.'}
    </>
  )
}

const ALL_MARKS = { registration: true, label: true, scaleBar: true, stepStrip: true }

function Words({
  label,
  value,
  words,
  onChoice,
}: Readonly<{
  label: string
  value: string
  words: Readonly<Record<string, string>>
  onChoice: (id: string) => void
}>): ReactNode {
  const choices = Object.entries(words).map(([id, name]) => ({ id, name }))
  return <Blank label={label} value={value} choices={choices} onChoice={onChoice} />
}

const PAUSE_MS = 350

/** A number in the sentence; what is written counts when the hand rests. */
export function Figure({
  label,
  value,
  wrong,
  onFigure,
}: Readonly<{
  label: string
  value: number
  wrong: string | null
  onFigure: (value: number) => void
}>): ReactNode {
  const [written, setWritten] = useState<string | null>(null)
  const shown = String(Number(value.toFixed(3)))
  const tell = useRef(onFigure)
  useEffect(() => {
    tell.current = onFigure
  })
  // what is written counts once; a value that comes from elsewhere later takes its place
  const last = useRef(Number(shown))
  useEffect(() => {
    last.current = Number(shown)
    setWritten((before) => (before !== null && figureOf(before) === Number(shown) ? before : null))
  }, [shown])
  useEffect(() => {
    const figure = written === null ? null : figureOf(written)
    if (figure === null || figure === last.current) return undefined
    const timer = setTimeout(() => {
      last.current = figure
      tell.current(figure)
    }, PAUSE_MS)
    return () => clearTimeout(timer)
  }, [written])
  const unread = written !== null && figureOf(written) === null && written !== ''
  return (
    <BlankEntry
      label={label}
      value={written ?? shown}
      open="…"
      numeric
      longest={7}
      wrong={unread ? FILMS_WORDS.noFigure : wrong}
      onEntry={setWritten}
    />
  )
}

function figureOf(written: string): number | null {
  const figure = Number(written.trim().replace(',', '.'))
  return written.trim() === '' || !Number.isFinite(figure) ? null : figure
}
