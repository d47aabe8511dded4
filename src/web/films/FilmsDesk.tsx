import { type ReactNode, useMemo, useState } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import { artworkProofPdfPath } from '../../api/paths.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { FilmSize } from '../../workflow/makeFilms/filmSize.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Words } from './Figure.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { InkRow } from './InkRow.tsx'
import { LightTable } from './LightTable.tsx'
import { Making } from './Making.tsx'
import { MoireSaid } from './MoireSaid.tsx'
import { MoreInks } from './MoreInks.tsx'
import { MorePlan } from './MorePlan.tsx'
import { PlanSentence } from './PlanSentence.tsx'
import type { LoupeView, Preview } from './previewAsk.ts'
import { PRINTS_WORDS } from './printsWords.ts'
import { type Rolls, usualRolls } from './rolls.ts'
import { SizeSaid, sheetsOf } from './SizeSaid.tsx'
import { ToneActs, ToneFindings } from './ToneFindings.tsx'
import { TrueSize } from './TrueSize.tsx'
import { usePreview } from './usePreview.ts'
import type { PrintsKept } from './usePrints.ts'

/** What the loupe shows from rim to rim. */
const LOUPE_MM = 3

export type FilmsDeskProps = Readonly<{
  artwork: Artwork
  file: PlanFile
  plan: FilmPlan
  size: FilmSize
  wrong: Readonly<{ message: string; field: string | null }> | null
  fabric: Readonly<{ weave: Weave; dyed: boolean }> | null
  usual: Readonly<{ rulingPerCm: number; dotUm: number }>
  message: string | null
  onPlan: (file: PlanFile) => void
  onFabric: (fabric: string) => void
  onMake: () => void | Promise<void>
  onStop: () => void
  onShop: (film: string, layer: string | null) => void
  prints: PrintsKept
}>

type Place = Readonly<{ plate: number; xShare: number; yShare: number }>

/** Films on the light table, and beside it all that is to be settled about them. */
export function FilmsDesk(props: FilmsDeskProps): ReactNode {
  const { artwork, file, plan, size, wrong, fabric, onPlan } = props
  const [place, setPlace] = useState<Place>({ plate: 0, xShare: 0.36, yShare: 0.4 })
  const [rolled, setRolled] = useState<Rolls | null>(null)
  const [focused, setFocused] = useState<number | null>(null)
  const [view, setView] = useState<LoupeView>('stencil')
  const [most, setMost] = useState<number | null>(null)
  const { preview, dots, inks, trouble, isOld } = useSeen(props, { ...place, view, most })
  const troubleSays = trouble?.message ?? FILMS_WORDS.noPreview
  const films = preview?.plates.length ?? 0
  const rolls = rolled !== null && rolled.length === films ? rolled : usualRolls(films)
  const look = (next: Partial<Place>): void => {
    const within = (share: number): number => Math.min(1, Math.max(0, share))
    const { plate, xShare, yShare } = { ...place, ...next }
    setPlace({ plate, xShare: within(xShare), yShare: within(yShare) })
  }
  const focus = (at: number): void => {
    const finding = preview?.findings[at]
    if (preview === null || finding === undefined) return
    const { box, plate } = finding
    setFocused(at)
    look({
      plate,
      xShare: (box.left + box.right) / 2 / preview.widthPx,
      yShare: (box.top + box.bottom) / 2 / preview.heightPx,
    })
  }
  const plate = preview?.plates[place.plate] ?? preview?.plates[0]
  const isAllBack = rolls.every((roll) => roll === 0)
  return (
    <>
      <div className="films-desk">
        <div className="films-head">
          <h1>{FILMS_WORDS.title}</h1>
          {preview !== null && (
            <Lead preview={preview} plan={plan} size={size} hasFabric={fabric !== null} />
          )}
        </div>
        <div className="films-left">
          {preview !== null && plate !== undefined ? (
            <>
              <LightTable
                preview={preview}
                isOld={isOld}
                rolls={rolls}
                onRolls={setRolled}
                says={FILMS_WORDS.table(
                  leadOf(preview, { plan, size, hasFabric: fabric !== null }).join(''),
                )}
                focused={focused}
                widthMm={size.widthMm}
                onLoupe={look}
                loupe={{ ...place, name: plate.name, lab: plate.lab, dots, fabric }}
              />
              <p className="films-under small">
                <span>{FILMS_WORDS.takeEdge}</span>
                <SecondAct
                  onPress={() => setRolled(isAllBack ? rolls.map(() => 1) : rolls.map(() => 0))}
                >
                  {isAllBack ? FILMS_WORDS.layAll : FILMS_WORDS.rollAll}
                </SecondAct>
                <LoupeShows name={plate.name} view={view} onView={setView} />
              </p>
              <div className="films-below">
                <MoireSaid plates={preview.plates} plan={plan} file={file} onPlan={onPlan} />
                <SizeSaid plan={plan} size={size} />
              </div>
            </>
          ) : (
            <div className="films-empty wood-frame">
              <p>{trouble === null ? FILMS_WORDS.computing : troubleSays}</p>
            </div>
          )}
        </div>
        <div className="films-words">
          {trouble !== null && preview !== null && <p className="upload-refused">{troubleSays}</p>}
          <PlanSentence
            artwork={artwork}
            file={file}
            plan={plan}
            wrong={wrong}
            usual={props.usual}
            widthMm={size.widthMm}
            onPlan={onPlan}
            onFabric={props.onFabric}
          />
          <MorePlan
            file={file}
            plan={plan}
            wrong={wrong}
            inkLimit={artwork.inkLimit}
            onPlan={onPlan}
            onInkLimit={props.prints.onInkLimit}
          />
          {wrong !== null && (
            <p className="upload-refused" role="alert">
              {wrong.message}
            </p>
          )}
          <ul className="film-inks" aria-label={FILMS_WORDS.inks}>
            {preview?.plates.map((each, at) => (
              <InkRow
                key={each.name}
                plate={each}
                place={at}
                plan={plan}
                file={file}
                inks={artwork.inks}
                shop={artwork}
                prints={props.prints}
                isLookedAt={at === place.plate}
                onLook={() => look({ plate: at })}
                onPlan={onPlan}
              />
            ))}
          </ul>
          <MoreInks {...props} most={most} found={inks} onMost={setMost} />
          {preview !== null && (
            <ToneFindings
              preview={preview}
              focused={focused}
              isOwn={plan.mode !== 'process' || artwork.statesCmyk}
              onFocus={focus}
            />
          )}
          <Making
            artwork={artwork}
            message={props.message}
            onMake={wrong === null ? () => void props.onMake() : null}
            onStop={props.onStop}
            onShop={props.onShop}
            beside={
              preview !== null && (
                <ToneActs
                  preview={preview}
                  file={file}
                  isDotted={plan.halftone?.kind === 'dot'}
                  mode={plan.mode}
                  focused={focused}
                  onPlan={onPlan}
                />
              )
            }
          />
        </div>
      </div>
      {preview !== null && (
        <TrueSize
          preview={preview}
          size={size}
          pdf={artwork.made === null ? null : artworkProofPdfPath(artwork.id)}
        />
      )}
    </>
  )
}

function LoupeShows({
  name,
  view,
  onView,
}: Readonly<{ name: string; view: LoupeView; onView: (view: LoupeView) => void }>): ReactNode {
  const units = useUnits()
  return (
    <span>
      {FILMS_WORDS.loupeShows(lengthText(LOUPE_MM, units), name)}
      <Words
        label={FILMS_WORDS.loupeView}
        value={view}
        words={FILMS_WORDS.loupeViews}
        onChoice={(next) => onView(next as LoupeView)}
      />
    </span>
  )
}

/** What the worker is asked for: anew when the plan, the fabric or the place is another. */
function useSeen(
  { artwork, plan, fabric }: FilmsDeskProps,
  { plate, xShare, yShare, view, most }: Place & Readonly<{ view: LoupeView; most: number | null }>,
): ReturnType<typeof usePreview> {
  const { id, picture, proportion, widthMm, inkLimit } = artwork
  const looked = useMemo(
    () =>
      picture === null ? null : { artwork: id, picture, proportion: proportion ?? 1, widthMm },
    // the picture of an artwork changes with its version alone
    [id, picture?.version, proportion, widthMm],
  )
  const weave = fabric?.weave ?? null
  return usePreview({
    preview: useMemo(
      () => (looked === null ? null : { ...looked, plan, fabric: weave, inkLimit }),
      [looked, plan, weave, inkLimit],
    ),
    loupe: useMemo(() => {
      const last = plan.inks.length - (plan.underbase === null ? 1 : 0)
      const own = Math.min(plate, last)
      return looked === null
        ? null
        : { ...looked, plan, plate: own, xShare, yShare, acrossMm: LOUPE_MM, view }
    }, [looked, plan, plate, xShare, yShare, view]),
    inks: useMemo(() => {
      if (looked === null || most === null) return null
      const mode = plan.mode === 'line' ? ('line' as const) : ('spot' as const)
      return { ...looked, most, mode, paper: plan.paper ?? null, stock: artwork.inks }
    }, [looked, most, plan.mode, plan.paper]),
  })
}

type Lying = Readonly<{ plan: FilmPlan; size: FilmSize; hasFabric: boolean }>

function leadOf(
  { plates, holds, findings }: Preview,
  { plan, size, hasFabric }: Lying,
): readonly [string, string] {
  const films = FILMS_WORDS.lead(plates.length, sheetsOf(plan, size))
  if (plan.mode === 'line' || plan.halftone === null) return [films, FILMS_WORDS.lines]
  if (!hasFabric || holds === null) return [films, FILMS_WORDS.noFabric]
  if (holds.least >= holds.most) return [films, FILMS_WORDS.tooFine]
  const tones = findings.filter(({ kind }) => kind !== 'heavy').length
  const heavy = tones < findings.length ? PRINTS_WORDS.leadHeavy : ''
  return [films, (tones === 0 ? FILMS_WORDS.holdsAll : FILMS_WORDS.holdsBut(tones)) + heavy]
}

function Lead({ preview, ...lying }: Lying & Readonly<{ preview: Preview }>): ReactNode {
  const [films, holds] = leadOf(preview, lying)
  return (
    <p className="films-lead" aria-live="polite">
      {films}
      <strong>{holds}</strong>
    </p>
  )
}
