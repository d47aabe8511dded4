import { plainName } from '../units/plainName.ts'
import { type Density, density } from '../units/quantity.ts'

/** What a positive is drawn or printed on. */
export type FilmBase = Readonly<{
  name: string
  /** Density at the lamp's wavelengths, not to the eye. */
  baseDensity: Density
  status: 'from memory'
}>

/**
 * The usual film bases; a shop that measured its own uses that.
 *
 * @source film-bases
 * @limits from memory; papers and films differ by more than the difference between the rows
 */
export const FILM_BASES: readonly FilmBase[] = [
  { name: 'clear polyester', baseDensity: density(0.05), status: 'from memory' },
  { name: 'matt drafting film', baseDensity: density(0.15), status: 'from memory' },
  { name: 'tracing paper', baseDensity: density(0.35), status: 'from memory' },
]

/** The base of that name, however it is capitalised and spaced; null for one not in the table.
 * @source film-bases */
export function baseNamed(name: string): FilmBase | null {
  const plain = plainName(name)
  return FILM_BASES.find((base) => base.name === plain) ?? null
}
