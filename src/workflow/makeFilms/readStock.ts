import type { Lab } from '../../core/colour/space.ts'
import type { Ink } from '../../core/separation/plan.ts'
import { valueOfJson } from '../jsonText.ts'
import { sectionOf } from '../section.ts'
import { inkFrom, labUnder } from './readInks.ts'

export const STOCK_BYTES_AT_MOST = 1_000_000

/** Inks that a shop has, and what it prints on. */
export type Stock = Readonly<{ inks: readonly Ink[]; paper: Lab | null }>

const NAMED = 'the stock'
const MOST_INKS = 200

/**
 * A stock out of a JSON text: inks as plans have them, each with its colour.
 *
 * @throws Failure 'wrong input' or 'unreadable file', naming the key
 */
export function stockFromJson(text: string): Stock {
  const stock = sectionOf(valueOfJson(text, { named: 'The stock' }), { named: NAMED })
  stock.allow(['inks', 'paper'])
  const given = stock.raw('inks') ?? null
  if (!Array.isArray(given) || given.length === 0 || given.length > MOST_INKS) {
    throw stock.refusal(
      'inks',
      `must be a list of up to ${MOST_INKS} inks, like [{"name":"red","lab":[52,68,48],"opacity":0.9}]`,
    )
  }
  return {
    inks: given.map((value: unknown, at) =>
      inkFrom(value, { path: `inks[${at}]`, needsLab: true, named: NAMED }),
    ),
    paper: labUnder(stock, 'paper'),
  }
}
