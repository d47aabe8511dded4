import { useMemo } from 'react'
import type { FilmsDeskProps } from './FilmsDesk.tsx'
import type { LoupeView } from './previewAsk.ts'
import { usePreview } from './usePreview.ts'

/** What the loupe shows from rim to rim. */
export const LOUPE_MM = 3

/** A place under the loupe. */
export type Place = Readonly<{ plate: number; xShare: number; yShare: number }>

type LookedAt = Place &
  Readonly<{
    view: LoupeView
    /** So many inks are wondered about; null: nobody wonders. */
    most: number | null
    isTrueSize: boolean
  }>

/** What the worker is asked for: anew when the plan, the fabric or the place is another. */
export function useDesk(
  { artwork, plan, fabric }: Pick<FilmsDeskProps, 'artwork' | 'plan' | 'fabric'>,
  { plate, xShare, yShare, view, most, isTrueSize }: LookedAt,
): ReturnType<typeof usePreview> {
  const { id, picture, proportion, widthMm, inkLimit } = artwork
  const looked = useMemo(
    () =>
      picture === null ? null : { artwork: id, picture, proportion: proportion ?? 1, widthMm },
    // the picture of an artwork changes with its version alone
    [id, picture?.version, proportion, widthMm],
  )
  const sample = isTrueSize ? looked : null
  const weave = fabric?.weave ?? null
  return usePreview({
    artwork: sample,
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
