import type { NewEvenness } from '../../../api/lamp.ts'
import type { Units } from '../../signs/Ruler.tsx'
import { onTold } from '../days.ts'
import { READ_WORDS } from '../read/readWords.ts'
import { stepsOf, type WedgeDraft, wedgeOf, wrongWedge } from '../wedgeDraft.ts'
import { DOSE, lengthEntry, lengthWritten, numberWritten, valueOf } from '../written.ts'
import { EVENNESS_WORDS } from './evennessWords.ts'

/** Where a wedge lay and what it said, as it was typed. */
export type PlaceDraft = Readonly<{ x: string; y: string; solid: string; clear: string }>
export type EvennessDraft = Readonly<{
  width: string
  height: string
  dose: string
  on: string
  wedge: WedgeDraft
  places: readonly PlaceDraft[]
}>
/** By field; a place's sentence by its number in the list, from 0. */
export type EvennessWrong = Readonly<Partial<Record<'width' | 'height' | 'dose' | 'few', string>>> &
  Readonly<{ wedge?: Partial<WedgeDraft>; places: Readonly<Record<number, string>> }>

export type Glass = Readonly<{ widthMm: number; heightMm: number }>

const GLASS = { low: 50, high: 10_000 }
/** Where the outer wedges lie: so far from the edges, as a share of the glass. */
const MARGIN = 0.12

/** The glass as it was typed; null while that cannot be read. */
export function glassOf({ width, height }: EvennessDraft, units: Units): Glass | null {
  const [widthMm, heightMm] = [width, height].map((text) =>
    valueOf(lengthWritten(text, GLASS, units)),
  )
  return widthMm === null || widthMm === undefined || heightMm === null || heightMm === undefined
    ? null
    : { widthMm, heightMm }
}

/** Three rows of three, front left first: enough for a curved surface. */
export function ninePlaces({ widthMm, heightMm }: Glass, units: Units): readonly PlaceDraft[] {
  const across = [MARGIN, 0.5, 1 - MARGIN]
  return across.flatMap((y) =>
    across.map((x) => placeAt({ xMm: x * widthMm, yMm: y * heightMm }, units)),
  )
}

/** The middle and near the corners, front left first: enough for a tilted plane. */
export function fivePlaces({ widthMm, heightMm }: Glass, units: Units): readonly PlaceDraft[] {
  const [near, far] = [MARGIN, 1 - MARGIN]
  const shares = [
    [near, near],
    [far, near],
    [0.5, 0.5],
    [near, far],
    [far, far],
  ] as const
  return shares.map(([x, y]) => placeAt({ xMm: x * widthMm, yMm: y * heightMm }, units))
}

/** A place on the glass, to the centimetre. */
export function placeAt(
  { xMm, yMm }: Readonly<{ xMm: number; yMm: number }>,
  units: Units,
): PlaceDraft {
  const [x, y] = [xMm, yMm].map((mm) => lengthEntry(Math.round(mm / 10) * 10, units))
  return { x: x ?? '', y: y ?? '', solid: '', clear: '' }
}

/** Where a place lies on the glass; null while that cannot be read. */
export function placeOf(
  { x, y }: PlaceDraft,
  { glass, units }: Readonly<{ glass: Glass; units: Units }>,
): Readonly<{ xMm: number; yMm: number }> | null {
  const xMm = valueOf(lengthWritten(x, { low: 0, high: glass.widthMm }, units))
  const yMm = valueOf(lengthWritten(y, { low: 0, high: glass.heightMm }, units))
  return xMm === null || yMm === null ? null : { xMm, yMm }
}

/** The wedges as they go out, or what is wrong; places with no step told do not count. */
export function evennessOf(
  draft: EvennessDraft,
  { unit, units }: Readonly<{ unit: string; units: Units }>,
): Readonly<{ told: NewEvenness; wrong: null }> | Readonly<{ told: null; wrong: EvennessWrong }> {
  const glass = glassOf(draft, units)
  const doseLu = valueOf(numberWritten(draft.dose, DOSE))
  const steps = stepsOf(draft.wedge)
  const [solids, clears] = [
    { low: 0, high: steps, whole: true },
    { low: 1, high: steps + 1, whole: true },
  ]
  const wrongOfWedge = wrongWedge(draft.wedge)
  const isWrongWedge = Object.keys(wrongOfWedge).length > 0
  const wedge = wedgeOf(draft.wedge)
  const places = draft.places.filter(isTold).map((place) => ({
    at: draft.places.indexOf(place),
    where: glass === null ? null : placeOf(place, { glass, units }),
    lastSolidStep: valueOf(numberWritten(place.solid, solids)),
    clear: numberWritten(place.clear, clears),
  }))
  const wrongPlaces = places.flatMap(({ at, where, lastSolidStep, clear }) => {
    const number = at + 1
    if (glass !== null && where === null) return [[at, EVENNESS_WORDS.wrong.place(number)] as const]
    if (lastSolidStep === null) return [[at, EVENNESS_WORDS.wrong.solid(number)] as const]
    const late = clear.kind === 'number' && clear.value <= lastSolidStep
    return clear.kind === 'wrong' || late ? [[at, EVENNESS_WORDS.wrong.clear(number)] as const] : []
  })
  const few = places.length < 3
  if (glass === null || doseLu === null || wrongPlaces.length > 0 || few || isWrongWedge) {
    const wrongLength = (text: string): Readonly<{ says: string } | null> =>
      lengthWritten(text, GLASS, units).kind === 'number'
        ? null
        : { says: EVENNESS_WORDS.wrong.glass(text.trim()) }
    const [width, height] = [wrongLength(draft.width), wrongLength(draft.height)]
    return {
      told: null,
      wrong: {
        ...(width === null ? {} : { width: width.says }),
        ...(height === null ? {} : { height: height.says }),
        ...(doseLu === null ? { dose: READ_WORDS.wrong.dose(draft.dose.trim()) } : {}),
        ...(isWrongWedge ? { wedge: wrongOfWedge } : {}),
        ...(few ? { few: EVENNESS_WORDS.wrong.few } : {}),
        places: Object.fromEntries(wrongPlaces),
      },
    }
  }
  return {
    wrong: null,
    told: {
      glass,
      doseLu,
      ...(unit === '' ? {} : { unit }),
      ...onTold(draft.on),
      ...(wedge === null ? {} : { wedge }),
      places: places.map(({ where, lastSolidStep, clear }) => ({
        xMm: where?.xMm ?? 0,
        yMm: where?.yMm ?? 0,
        lastSolidStep: lastSolidStep ?? 0,
        ...(clear.kind === 'number' ? { firstClearStep: clear.value } : {}),
      })),
    },
  }
}

function isTold({ solid, clear }: PlaceDraft): boolean {
  return solid.trim() !== '' || clear.trim() !== ''
}
