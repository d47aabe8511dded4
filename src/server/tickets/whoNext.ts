import { may } from '../../api/roles.ts'
import type { Ticket as TicketTold } from '../../api/tickets.ts'
import { USUALLY_SHOWN_FIRST } from '../../core/register/machines.ts'
import type { StationName } from '../../core/ticket/road.ts'
import { type Hand, whoMay } from '../../core/ticket/whoMay.ts'
import type { Database } from '../../store/database/database.ts'
import { people } from '../../store/people.ts'
import { theShop } from '../../store/shop.ts'
import { machineOf, signOffs } from '../../store/signOffs.ts'
import { listed } from '../../workflow/printPlanNumbers.ts'
import type { Told } from '../http/route.ts'

type WhoTold = Told<NonNullable<TicketTold['next']>['who']>

/** Says of a station who can do it, by what they were shown. */
export type WhoNext = (station: StationName, owner: string | null) => WhoTold

/** Who is here and what they were shown, as it stands now. */
export async function whoNext(
  database: Database,
  { at }: Readonly<{ at: Date }>,
): Promise<WhoNext> {
  const all = await signOffs(database)
  const hands = (await people(database)).flatMap(({ id, name, role }): readonly Hand[] => {
    if (!may(role, 'printer')) return []
    const shown = all
      .filter(({ personId }) => personId === id)
      .map((signOff) => ({
        machine: signOff.machine,
        unitId: machineOf(signOff),
        givenMs: signOff.givenAt.getTime(),
        expiresMs: signOff.expiresAt?.getTime() ?? null,
      }))
    return [{ name, showsOthers: may(role, 'technician'), shown }]
  })
  const asked = (await theShop(database)).shownFirst ?? USUALLY_SHOWN_FIRST
  return (station, owner) => {
    const { anybody, names } = whoMay(hands, { station, asked, nowMs: at.getTime() })
    return { anybody, names: [...names], says: says({ anybody, names }, { owner, hands }) }
  }
}

function says(
  { anybody, names }: Readonly<{ anybody: boolean; names: readonly string[] }>,
  { owner, hands }: Readonly<{ owner: string | null; hands: readonly Hand[] }>,
): string {
  if (anybody) return 'Anybody can do it.'
  if (hands.length === 0) return 'Whoever is here: nobody is written down yet.'
  const shows = hands.filter(({ showsOthers }) => showsOthers).map(({ name }) => name)
  const whom =
    shows.length === 0 ? 'a technician' : listed(shows).replace(/ and ([^,]*)$/, ' or $1')
  if (names.length === 0) return `Nobody here is written down as shown how: ask ${whom}.`
  const can = `${listed(names)} can do it: shown how, and it still holds.`
  const isHere = hands.some(({ name }) => name === owner)
  if (owner === null || !isHere || names.includes(owner)) return can
  return `${can} ${owner} has to be shown first: ask ${whom}.`
}
