import type { Artwork } from '../../api/artwork.ts'
import type { Lab } from '../../core/colour/space.ts'
import { isFailure } from '../../core/failure.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import type { PrintedTones } from '../../core/halftone/toneCurve.ts'
import type { FilmPlan, Mode, Sheet } from '../../core/separation/plan.ts'
import { PROCESS_INKS } from '../../workflow/makeFilms/readInks.ts'
import { planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import { type BY_SHOP, withShopTones } from '../../workflow/makeFilms/shopTones.ts'
import { angleOf, asUsual, type PlanFile, PROCESS_DEG } from '../../workflow/makeFilms/usualPlan.ts'

/** A plan as it is written, and what it means: or why it means nothing. The shop's tints count once they are written out. */
export type PlanRead =
  | Readonly<{ plan: FilmPlan; wrong: null }>
  | Readonly<{ plan: null; wrong: Readonly<{ message: string; field: string | null }> }>

export function planRead(file: PlanFile): PlanRead {
  try {
    return {
      plan: planFromJson(JSON.stringify(withShopTones(file, { known: [], fabric: null }))),
      wrong: null,
    }
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    return { plan: null, wrong: { message: cause.message, field: cause.field ?? null } }
  }
}

/** An ink as plans write it. */
export type PlanInk = Readonly<{
  name: string
  lab: Lab
  opacity: number
  angleDeg?: number
  tones?: Readonly<{ least: number; most: number; beyond?: 'clip' | 'scatter' }>
  /** What tones were measured to print as, by the shop or as is usual. */
  printed?: 'usual' | typeof BY_SHOP | PrintedTones
  /** Colours of the artwork that become it, in flat colours. */
  takes?: readonly Lab[]
  chokeUm?: number
  spreadUm?: number
  highlightsFrom?: number
}>

export function inksOf({ inks }: PlanFile): readonly PlanInk[] {
  return Array.isArray(inks) ? (inks as readonly PlanInk[]) : []
}

type ShopInk = Artwork['inks'][number]

/** The plan with its inks written out, where it left them to what is usual. */
export function withOwnInks(file: PlanFile, { inks }: FilmPlan): PlanFile {
  if (inksOf(file).length > 0) return file
  const written = inks.map(({ name, lab, opacity, angleDeg }) => ({
    name,
    opacity,
    lab: lab ?? BLACK,
    ...(angleDeg === null ? {} : { angleDeg }),
  }))
  return { ...file, inks: written }
}

const BLACK: Lab = [16, 0, 0]

/** The plan with an ink more, printed last, its dots turned from those of the others. */
export function withInk(file: PlanFile, { name, lab, opacity }: ShopInk): PlanFile {
  const inks = inksOf(file)
  const added = asUsual({
    name: freeName(name, inks),
    lab,
    opacity,
    angleDeg: angleOf(inks.length),
  })
  // white for highlights stays the last
  const last = inks.filter(({ highlightsFrom }) => highlightsFrom !== undefined)
  return withInks(file, [...inks.filter((ink) => !last.includes(ink)), added, ...last])
}

export function withInks(file: PlanFile, inks: readonly PlanInk[]): PlanFile {
  const mode = file['mode'] as Mode
  const most = mode === 'single' && inks.length > 1 ? 'spot' : mode
  return { ...file, mode: most, inks }
}

/** The plan with one ink changed, by its place from 0. */
export function withInkChanged(file: PlanFile, at: number, change: Partial<PlanInk>): PlanFile {
  const inks = inksOf(file).map((ink, place) => (place === at ? { ...ink, ...change } : ink))
  return { ...file, inks }
}

/** Two inks of one name cannot be told apart. */
export function freeName(name: string, inks: readonly PlanInk[]): string {
  const taken = new Set(inks.map((ink) => ink.name.toLowerCase()))
  for (let more = 2; taken.has(name.toLowerCase()); more++) {
    const next = `${name} ${more}`
    if (!taken.has(next.toLowerCase())) return next
  }
  return name
}

/** The plan with an ink printed one earlier, its place from 0. */
export function withInkEarlier(file: PlanFile, at: number): PlanFile {
  const inks = [...inksOf(file)]
  const [moved] = inks.splice(at, 1)
  if (moved !== undefined) inks.splice(Math.max(0, at - 1), 0, moved)
  return { ...file, inks }
}

const PROCESS: readonly PlanInk[] = PROCESS_INKS.map(({ name, lab, opacity }, at) => ({
  name,
  lab: lab ?? BLACK,
  opacity,
  angleDeg: PROCESS_DEG[at] ?? 0,
}))

/** Another way of parting brings the inks that it needs. */
export function withMode(
  file: PlanFile,
  mode: Mode,
  {
    inks: shop,
    inkLimit,
    statesCmyk,
  }: Readonly<{ inks: readonly ShopInk[]; inkLimit: number; statesCmyk: boolean }>,
): PlanFile {
  const inks = inksOf(file).filter(({ highlightsFrom }) => highlightsFrom === undefined)
  const { inks: _, limits: __, ...rest } = file
  switch (mode) {
    case 'process':
      // plates that somebody parted stay as they are until one says otherwise
      return statesCmyk
        ? { ...rest, mode, inks: PROCESS }
        : { ...rest, mode, inks: PROCESS.map(asUsual), limits: { coverage: inkLimit } }
    case 'single':
      return { ...rest, mode, ...(inks.length === 0 ? {} : { inks: inks.slice(-1) }) }
    case 'line':
    case 'spot': {
      const known = inks.filter(({ lab }) => Array.isArray(lab))
      if (known.length > 0) {
        return { ...rest, mode, inks: mode === 'spot' ? toned(known) : known.slice(0, 16) }
      }
      return shop.slice(0, 2).reduce(withInk, { ...rest, mode, inks: [] })
    }
  }
}

/** Inks whose tones are to be parted: at most six colours of the artwork. */
function toned(inks: readonly PlanInk[]): readonly PlanInk[] {
  const six = inks.slice(0, 6)
  const colours = six.reduce((sum, { takes }) => sum + (takes?.length ?? 1), 0)
  if (colours <= 6) return six
  return six.map(({ takes, ...ink }) => (takes === undefined ? ink : { ...ink, takes: [ink.lab] }))
}

/** Dots by their words; null: no dots at all. */
export type DotKind = 'round' | 'elliptical' | 'line' | 'stochastic' | 'none'

export function dotKindOf(halftone: Halftone | null): DotKind {
  if (halftone === null) return 'none'
  return halftone.kind === 'stochastic' ? 'stochastic' : halftone.shape
}

/** The usual of each kind: scattered dots as wide as what the fabric holds. */
export function withDots(
  file: PlanFile,
  kind: DotKind,
  { rulingPerCm, dotUm }: Readonly<{ rulingPerCm: number; dotUm: number }>,
): PlanFile {
  if (kind === 'none') return { ...file, halftone: null }
  if (kind === 'stochastic') {
    return { ...file, halftone: { kind, seed: 1, dotUm: Math.ceil(dotUm / 5) * 5 } }
  }
  const before = file['halftone'] as Partial<Record<string, unknown>> | null | undefined
  const angleDeg = typeof before?.['angleDeg'] === 'number' ? before['angleDeg'] : angleOf(0)
  const ruling =
    typeof before?.['rulingPerCm'] === 'number' ? before['rulingPerCm'] : Math.round(rulingPerCm)
  return { ...file, halftone: { kind: 'dot', shape: kind, rulingPerCm: ruling, angleDeg } }
}

/** A way to move edges, as the sentence says it. */
export type EdgeWay = 'stay' | 'spread' | 'choke'

export function edgeOf({ edgeUm }: FilmPlan): Readonly<{ way: EdgeWay; um: number }> {
  return { way: edgeUm === 0 ? 'stay' : edgeUm > 0 ? 'spread' : 'choke', um: Math.abs(edgeUm) }
}

const USUAL_EDGE_UM = 100

export function withEdge(file: PlanFile, way: EdgeWay, um: number = USUAL_EDGE_UM): PlanFile {
  const { chokeUm: _, spreadUm: __, ...rest } = file
  if (way === 'stay') return rest
  return { ...rest, [way === 'spread' ? 'spreadUm' : 'chokeUm']: um }
}

/** Stock that the proof can lie on. Colours judged, from memory. */
export const STOCKS: readonly Readonly<{ id: string; name: string; lab: Lab | null }>[] = [
  { id: 'white', name: 'white paper', lab: null },
  { id: 'cream', name: 'cream paper', lab: [94, 1, 9] },
  { id: 'grey', name: 'grey board', lab: [70, 0, 3] },
  { id: 'brown', name: 'brown wrapping paper', lab: [62, 11, 25] },
  { id: 'blue', name: 'dark blue cloth', lab: [22, 2, -22] },
  { id: 'black', name: 'black cloth', lab: [14, 0, 0] },
]

/** Sheets that films are printed on, lying upright; null: as large as the film is. */
export const SHEETS: readonly Readonly<{ id: string; name: string; sheet: Sheet | null }>[] = [
  { id: 'own', name: 'one sheet each', sheet: null },
  { id: 'a4', name: 'A4 sheets', sheet: { widthMm: 210, heightMm: 297, overlapMm: 10 } },
  { id: 'a3', name: 'A3 sheets', sheet: { widthMm: 297, heightMm: 420, overlapMm: 10 } },
  {
    id: 'letter',
    name: 'Letter sheets',
    sheet: { widthMm: 215.9, heightMm: 279.4, overlapMm: 10 },
  },
  {
    id: 'other',
    name: 'other sheets or a roll',
    sheet: { widthMm: 610, heightMm: 1000, overlapMm: 10 },
  },
]

export function stockOf({ paper }: FilmPlan): string {
  const same = STOCKS.find(({ lab }) => JSON.stringify(lab) === JSON.stringify(paper ?? null))
  return same?.id ?? ''
}

/** `other`: a sheet or roll that has no name here. */
export function sheetOf({ sheet }: FilmPlan): string {
  const same = SHEETS.find(
    (known) => known.sheet?.widthMm === sheet?.widthMm && known.sheet?.heightMm === sheet?.heightMm,
  )
  return same?.id ?? 'other'
}
