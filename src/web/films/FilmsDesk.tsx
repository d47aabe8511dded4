import { type ReactNode, useState } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import { artworkProofPdfPath } from '../../api/paths.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { FilmSize } from '../../workflow/makeFilms/filmSize.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { FilmsLead } from './FilmsLead.tsx'
import { FilmsLeft } from './FilmsLeft.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { InkRow } from './InkRow.tsx'
import { Making } from './Making.tsx'
import { MoreInks } from './MoreInks.tsx'
import { MorePlan } from './MorePlan.tsx'
import { PlanSentence } from './PlanSentence.tsx'
import type { LoupeView } from './previewAsk.ts'
import { ToneActs, ToneFindings } from './ToneFindings.tsx'
import { TrueSize } from './TrueSize.tsx'
import { type Place, useDesk } from './useDesk.ts'
import type { PrintsKept } from './usePrints.ts'

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

/** Films on the light table, and beside it all that is to be settled about them. */
export function FilmsDesk(props: FilmsDeskProps): ReactNode {
  const { artwork, file, plan, size, wrong, fabric, onPlan } = props
  const [place, setPlace] = useState<Place>({ plate: 0, xShare: 0.36, yShare: 0.4 })
  const [focused, setFocused] = useState<number | null>(null)
  const [view, setView] = useState<LoupeView>('stencil')
  const [most, setMost] = useState<number | null>(null)
  const [isTrueSize, setTrueSize] = useState(false)
  const seen = useDesk(props, { ...place, view, most, isTrueSize })
  const { preview, dots, inks, trouble, isOld } = seen
  const troubleSays = trouble?.message ?? FILMS_WORDS.noPreview
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
  return (
    <>
      <div className="films-desk">
        <div className="films-head">
          <h1>{FILMS_WORDS.title}</h1>
          {preview !== null && (
            <FilmsLead preview={preview} plan={plan} size={size} hasFabric={fabric !== null} />
          )}
        </div>
        <div className="films-left">
          {preview !== null ? (
            <FilmsLeft
              {...props}
              preview={preview}
              dots={dots}
              isOld={isOld}
              focused={focused}
              place={place}
              view={view}
              onLook={look}
              onView={setView}
            />
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
              isOwn={plan.mode === 'process' && artwork.statesCmyk}
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
          artwork={seen.artwork}
          size={size}
          isOpen={isTrueSize}
          onOpen={setTrueSize}
          pdf={artwork.made === null ? null : artworkProofPdfPath(artwork.id)}
        />
      )}
    </>
  )
}
