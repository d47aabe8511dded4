import type { CodeLimits } from './classify.ts'
import { codeOfLeak } from './leakCode.ts'
import type { LeakBand } from './leakMap.ts'

/** What a film pixel is, and what becomes of it. */
export const FATES = {
  markOpen: 0,
  markVeiled: 1,
  markSoft: 2,
  markClosed: 3,
  groundOpen: 4,
  groundVeiled: 5,
  groundSoft: 6,
  groundClosed: 7,
} as const

const FATE_COUNT = 8

/**
 * A film made small as shares: for each square of cellPx² film pixels how many met each fate.
 * Made from the classes themselves, never from a shrunken leak map, so a thin line stays a share.
 */
export type Overview = Readonly<{
  across: number
  down: number
  cellPx: number
  /** Shares 0 … 1, eight a cell in the order of FATES; cells at the right and bottom may be partly film. */
  shares: Float32Array
}>

export type OverviewMaker = Readonly<{ push: (band: LeakBand) => void; finish: () => Overview }>

/** @param options mostCells along the longer side; belowTransmission: what belongs to a mark */
export function overviewMaker(
  film: Readonly<{ widthPx: number; heightPx: number }>,
  {
    mostCells,
    limits,
    belowTransmission,
  }: Readonly<{ mostCells: number; limits: CodeLimits; belowTransmission: number }>,
): OverviewMaker {
  const cellPx = Math.max(1, Math.ceil(Math.max(film.widthPx, film.heightPx) / mostCells))
  const across = Math.ceil(film.widthPx / cellPx)
  const down = Math.ceil(film.heightPx / cellPx)
  const counts = new Float32Array(across * down * FATE_COUNT)
  const belowCode = codeOfLeak(belowTransmission)
  return {
    push: ({ top, rows, widthPx, codes, filmCodes }) => {
      for (let row = 0; row < rows; row += 1) {
        const line = Math.floor((top + row) / cellPx) * across
        const from = row * widthPx
        for (let x = 0, cell = 0, next = cellPx; x < widthPx; x += 1) {
          if (x === next) {
            cell += 1
            next += cellPx
          }
          const code = codes[from + x]
          const state = code < limits.skin ? 0 : code < limits.hold ? 1 : code < limits.full ? 2 : 3
          const fate = filmCodes[from + x] < belowCode ? state : state + FATES.groundOpen
          counts[(line + cell) * FATE_COUNT + fate] += 1
        }
      }
    },
    finish: () => {
      for (let cell = 0; cell < across * down; cell += 1) {
        const wide = Math.min(cellPx, film.widthPx - (cell % across) * cellPx)
        const high = Math.min(cellPx, film.heightPx - Math.floor(cell / across) * cellPx)
        for (let fate = 0; fate < FATE_COUNT; fate += 1)
          counts[cell * FATE_COUNT + fate] /= wide * high
      }
      return { across, down, cellPx, shares: counts }
    },
  }
}
