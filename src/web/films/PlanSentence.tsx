import type { ReactNode } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan, Mode } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { Blank } from '../signs/Blank.tsx'
import { Figure, Words } from './Figure.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { type DotKind, dotKindOf, STOCKS, stockOf, withDots, withMode } from './planFile.ts'

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
        onChoice={(mode) => onPlan(withMode(file, mode as Mode, artwork))}
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
      {/* flat colours have no dots */}
      {plan.mode !== 'line' && (
        <>
          {sentence.dots}
          <Words
            label={labels.dots}
            value={dotKindOf(plan.halftone)}
            words={FILMS_WORDS.dots}
            onChoice={(kind) => onPlan(withDots(file, kind as DotKind, usual))}
          />
          <DotSize file={file} plan={plan} wrongIn={wrongIn} onPlan={onPlan} />
        </>
      )}
      {sentence.stock}
      <Blank
        label={labels.stock}
        value={stockOf(plan)}
        choices={STOCKS}
        open={FILMS_WORDS.ofOwn}
        onChoice={(id) => {
          const stock = STOCKS.find((known) => known.id === id)
          if (stock !== undefined) set({ paper: stock.lab })
        }}
      />
      {'.'}
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
