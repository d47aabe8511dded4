import { plainName } from '../units/plainName.ts'

/** A layer by the name of its ink; null: nobody said which ink. */
type InkedLayer = Readonly<{ ink: string | null }>

/**
 * The layer that each plate of an artwork is for. Where every plate has the name of another layer's
 * ink, it is by name, in whatever order they are made; else, where there are as many plates as
 * layers, by the order of printing; else those whose names are the same are it.
 *
 * @param layers of the ticket, in the order of printing
 * @returns one for each plate, in their order; null where it is for none that is known
 */
export function layersOfPlates<Layer extends InkedLayer>(
  layers: readonly Layer[],
  { plates }: Readonly<{ plates: readonly string[] }>,
): readonly (Layer | null)[] {
  const byName = plates.map((plate) => {
    const same = layers.filter(({ ink }) => ink !== null && plainName(ink) === plainName(plate))
    return same.length === 1 ? (same[0] ?? null) : null
  })
  const told = byName.filter((layer) => layer !== null)
  const isOneEach = told.length === plates.length && new Set(told).size === plates.length
  if (isOneEach || layers.length !== plates.length) {
    return byName.map((layer, at) =>
      layer !== null && byName.indexOf(layer) === at ? layer : null,
    )
  }
  return layers
}
