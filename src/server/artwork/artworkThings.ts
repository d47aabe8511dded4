import type { Lab } from '../../core/colour/space.ts'
import type { Database } from '../../store/database/database.ts'
import { type Fabric, fabrics } from '../../store/fabrics.ts'
import { inks } from '../../store/inks.ts'
import { theShop } from '../../store/shop.ts'
import { ticketOf } from '../../store/tickets.ts'

/** What a separation has to know of an ink. */
export type PlanInk = Readonly<{ name: string; lab: Lab; opacity: number }>

export type InkedLayer = Readonly<{ id: string; shortName: string; ink: string | null }>

/** The inks of a ticket in the order of printing; none where there is no ticket. */
export async function inksOfTicket(
  database: Database,
  ticketId: string | null,
): Promise<readonly PlanInk[]> {
  if (ticketId === null) return []
  const { layers } = await ticketOf(database, ticketId)
  const known = await inks(database)
  return layers.flatMap(({ inkId }) => {
    const ink = known.find(({ id }) => id === inkId)
    if (ink === undefined) return []
    const { name, labL, labA, labB, opacity } = ink
    return [{ name, lab: [labL, labA, labB] as const, opacity }]
  })
}

/** The layers of a ticket by their inks, in the order of printing; none where there is no ticket. */
export async function inkedLayers(
  database: Database,
  ticketId: string | null,
): Promise<readonly InkedLayer[]> {
  if (ticketId === null) return []
  const { layers } = await ticketOf(database, ticketId)
  const known = await inks(database)
  return layers.map(({ id, shortName, inkId }) => {
    const ink = known.find((each) => each.id === inkId)?.name ?? null
    return { id, shortName, ink }
  })
}

/** The fabric named, else what the shop usually prints with; null where it has none. */
export async function fabricOfArtwork(
  database: Database,
  fabricId: string | null,
): Promise<Fabric | null> {
  const all = await fabrics(database)
  const wanted = fabricId ?? (await theShop(database)).usualFabricId
  return all.find(({ id }) => id === wanted) ?? null
}
