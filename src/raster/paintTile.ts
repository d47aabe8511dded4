import type { CodeLimits } from './classify.ts'
import { COVERS, comboOfSums, OUTSIDE, SIGN_SHIFT, STATE_STEPS } from './paintPalette.ts'

/** What is shown, ready to be painted at any dose; all planes have one entry a shown pixel. */
export type ViewPlanes = Readonly<{
  /** One leak code of 16 bits, or four >> 8 from the low byte up, each for a quarter. */
  codes: Uint32Array
  /** Sign << SIGN_SHIFT | cover: what of the palette's 16 bits does not depend on the dose. */
  bases: Uint16Array
  /** The film's density byte. */
  film: Uint8Array
}>

/** What a dose makes of each code: steps to be added up. */
export type DoseTable = Readonly<{ steps: Uint8Array; combos: Uint16Array }>

/** Kinds of code that are told apart on level 0: the last four bits are not kept. */
const PIXEL_KINDS = 4096

/** @param level 0 for codes of 16 bits, above for four of 8 */
export function doseTable(limits: CodeLimits, level: number): DoseTable {
  const kinds = level === 0 ? PIXEL_KINDS : 256
  const width = 65536 / kinds
  const quarters = level === 0 ? 4 : 1
  const steps = new Uint8Array(kinds)
  for (let kind = 0; kind < kinds; kind += 1) {
    steps[kind] = quarters * STATE_STEPS[stateOf(kind * width + (width >> 1), limits)]
  }
  return { steps, combos: comboOfSums() }
}

function stateOf(code: number, { skin, hold, full }: CodeLimits): 0 | 1 | 2 | 3 {
  if (code < skin) return 0
  if (code < hold) return 1
  return code < full ? 2 : 3
}

/** Paints film pixels (level 0) at a dose: the hot loop, one look-up each in three small tables. */
export function paintPixels(
  { codes, bases }: ViewPlanes,
  { steps, combos }: DoseTable,
  palette: Uint32Array,
  target: Uint32Array,
): void {
  for (let at = 0; at < target.length; at += 1) {
    target[at] = palette[bases[at] | combos[steps[codes[at] >> 4]]]
  }
}

/** Paints cells (level 1 and above) at a dose: the hot loop of every dragged dose. */
export function paintCells(
  { codes, bases }: ViewPlanes,
  { steps, combos }: DoseTable,
  palette: Uint32Array,
  target: Uint32Array,
): void {
  for (let at = 0; at < target.length; at += 1) {
    const four = codes[at]
    const sum =
      steps[four & 255] + steps[(four >> 8) & 255] + steps[(four >> 16) & 255] + steps[four >>> 24]
    target[at] = palette[bases[at] | combos[sum]]
  }
}

/** Paints the film as it was drawn. */
export function paintDrawn(
  { bases, film }: ViewPlanes,
  palette: Uint32Array,
  target: Uint32Array,
): void {
  const outside = OUTSIDE << SIGN_SHIFT
  for (let at = 0; at < target.length; at += 1) {
    const base = bases[at]
    target[at] = base === outside ? 0 : palette[((base & (COVERS - 1)) << 8) | film[at]]
  }
}
