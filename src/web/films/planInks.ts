import type { Lab } from '../../core/colour/space.ts'
import { labFromSrgb, srgbFromLab } from '../../core/colour/srgb.ts'
import { USUAL_PRINTED_TONES } from '../../core/halftone/toneCurve.ts'
import type { PictureColour } from '../../core/separation/palette.ts'
import { BY_SHOP } from '../../workflow/makeFilms/shopTones.ts'
import { angleOf, asUsual, type PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { colourName } from './colourName.ts'
import {
  type EdgeWay,
  freeName,
  inksOf,
  type PlanInk,
  withInkChanged,
  withInks,
} from './planFile.ts'

/** The inks of a plan as people change them: found, merged, coloured, measured. */

/** Paler than this and without colour is the paper. */
const PAPER = { lightness: 96, chroma: 4 }
/** So is a pale ground that is hardly coloured: artwork that was drawn or scanned on cream paper. */
const GROUND = { lightness: 88, chroma: 14, share: 0.15 }
/** Less of it is what edges were smoothed with. */
const LEAST_SHARE = 0.003

/** A plan in the flat colours that were found in the artwork, the palest printed first. */
export function withFoundInks(file: PlanFile, colours: readonly PictureColour[]): PlanFile {
  const labs = colours
    .filter(({ share }) => share >= LEAST_SHARE)
    .map(({ srgb, share }) => ({ lab: rounded(labFromSrgb(srgb)), share }))
    .toSorted((one, other) => other.lab[0] - one.lab[0])
    .filter((colour, at) => !isPale(colour, PAPER) && (at > 0 || !isGround(colour)))
    .map(({ lab }) => lab)
  const inks = labs.reduce<readonly PlanInk[]>((known, lab, at) => {
    const name = freeName(colourName(lab), known)
    const ink = { name, lab, opacity: 0.8, angleDeg: angleOf(at), takes: [lab] }
    return [...known, asUsual(ink)]
  }, [])
  const { limits: _, ...rest } = file
  return { ...rest, mode: 'line', inks }
}

type FoundColour = Readonly<{ lab: Lab; share: number }>

function isGround(palest: FoundColour): boolean {
  return palest.share >= GROUND.share && isPale(palest, GROUND)
}

function isPale(
  { lab: [l, a, b] }: FoundColour,
  than: Readonly<{ lightness: number; chroma: number }>,
): boolean {
  return l >= than.lightness && Math.hypot(a, b) <= than.chroma
}

/** The plan with one ink poured into another: what was its colour is printed in that. */
export function withMerged(file: PlanFile, at: number, into: number): PlanFile {
  const inks = inksOf(file)
  const [gone, kept] = [inks[at], inks[into]]
  if (gone === undefined || kept === undefined || at === into) return file
  const takes = [...(kept.takes ?? [kept.lab]), ...(gone.takes ?? [gone.lab])]
  const merged = withInkChanged(file, into, { takes })
  return withInks(
    merged,
    inksOf(merged).filter((_, place) => place !== at),
  )
}

/** The plan with an ink printed in another colour; in flat colours it takes what it took before. */
export function withColour(
  file: PlanFile,
  at: number,
  ink: Pick<PlanInk, 'lab'> & Partial<Pick<PlanInk, 'name' | 'opacity'>>,
): PlanFile {
  const own = inksOf(file)[at]
  if (own === undefined) return file
  const takes = file['mode'] === 'line' ? { takes: own.takes ?? [own.lab] } : {}
  return withInkChanged(file, at, { ...ink, ...takes })
}

export function hexOf(lab: Lab): string {
  const digits = srgbFromLab(lab).map((value) =>
    Math.round(255 * Math.min(1, Math.max(0, value)))
      .toString(16)
      .padStart(2, '0'),
  )
  return `#${digits.join('')}`
}

export function labOfHex(hex: string): Lab {
  const part = (at: number): number => Number.parseInt(hex.slice(at, at + 2), 16) / 255
  return rounded(labFromSrgb([part(1), part(3), part(5)]))
}

function rounded([l, a, b]: Lab): Lab {
  const tenths = (value: number): number => Math.round(10 * value) / 10
  return [Math.min(100, tenths(l)), tenths(a), tenths(b)]
}

/** How an ink's tones print: nobody says, as the shop measured them, as usual, or as measured for this artwork. */
export type PrintWay = 'same' | 'shop' | 'usual' | 'measured'

export function printWayOf({ printed }: PlanInk): PrintWay {
  return printed === undefined ? 'same' : typeof printed === 'string' ? printed : 'measured'
}

export function withPrintWay(file: PlanFile, at: number, way: PrintWay): PlanFile {
  const inks = inksOf(file).map(({ printed, ...ink }, place) =>
    place === at
      ? way === 'same'
        ? ink
        : { ...ink, printed: way === 'measured' ? USUAL_PRINTED_TONES : way }
      : printed === undefined
        ? ink
        : { ...ink, printed },
  )
  return { ...file, inks }
}

/** One measured tint of an ink. */
export function withTint(file: PlanFile, at: number, tint: number, print: number): PlanFile {
  const { printed } = inksOf(file)[at] ?? {}
  const pairs = printed === undefined || typeof printed === 'string' ? USUAL_PRINTED_TONES : printed
  const next = pairs.map(([film, was], place) =>
    place === tint ? ([film, print] as const) : ([film, was] as const),
  )
  return withInkChanged(file, at, { printed: next })
}

/** The plan with what the shop measured of an ink. */
export function withShopTints(file: PlanFile, at: number): PlanFile {
  return withInkChanged(file, at, { printed: BY_SHOP })
}

/** The plan with an ink parted by the colour that it is printed in. */
export function withoutTakes(file: PlanFile, at: number): PlanFile {
  const inks = inksOf(file).map((ink, place) => {
    const { takes: _, ...rest } = ink
    return place === at ? rest : ink
  })
  return { ...file, inks }
}

/** What one ink's tones print as, for all of them. */
export function withPrintForAll(file: PlanFile, at: number): PlanFile {
  const print = inksOf(file)[at]?.printed
  if (print === undefined) return file
  return { ...file, inks: inksOf(file).map((ink) => ({ ...ink, printed: print })) }
}

/** How an ink's own edges move. */
export type OwnEdge = EdgeWay | 'all'

export function ownEdgeOf({ chokeUm, spreadUm }: PlanInk): Readonly<{ way: OwnEdge; um: number }> {
  if (chokeUm !== undefined && chokeUm > 0) return { way: 'choke', um: chokeUm }
  if (spreadUm !== undefined && spreadUm > 0) return { way: 'spread', um: spreadUm }
  return { way: chokeUm === undefined && spreadUm === undefined ? 'all' : 'stay', um: 0 }
}

const USUAL_EDGE_UM = 100

export function withOwnEdge(
  file: PlanFile,
  at: number,
  way: OwnEdge,
  um: number = USUAL_EDGE_UM,
): PlanFile {
  const inks = inksOf(file).map((ink, place) => {
    if (place !== at) return ink
    const { chokeUm: _, spreadUm: __, ...rest } = ink
    if (way === 'all') return rest
    if (way === 'stay') return { ...rest, spreadUm: 0 }
    return { ...rest, [way === 'choke' ? 'chokeUm' : 'spreadUm']: um }
  })
  return { ...file, inks }
}

const WHITE: Lab = [96, 0, 1]
const HIGHLIGHTS_FROM = 0.85

/** The plan with white printed last where the artwork is palest. */
export function withHighlights(file: PlanFile): PlanFile {
  const inks = inksOf(file)
  const name = freeName('highlight white', inks)
  const angleDeg = angleOf(inks.length)
  const white = { name, lab: WHITE, opacity: 0.9, angleDeg, highlightsFrom: HIGHLIGHTS_FROM }
  return { ...file, mode: 'spot', inks: [...inks, white] }
}
