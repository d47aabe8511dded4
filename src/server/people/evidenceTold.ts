import type { Evidence } from '../../api/people.ts'
import { countSheets, type Tally } from '../../core/ticket/sheets.ts'
import type { Database } from '../../store/database/database.ts'
import { films } from '../../store/films.ts'
import { inks } from '../../store/inks.ts'
import { type LayerEvent, layerEventsOf } from '../../store/layerEvents.ts'
import { allPeople, personOf } from '../../store/people.ts'
import { readings, type WholeReading } from '../../store/readings.ts'
import { eventsOfPerson } from '../../store/screenEvents.ts'
import { signOffs } from '../../store/signOffs.ts'
import { tickets, type WholeTicket } from '../../store/tickets.ts'
import type { Told } from '../http/route.ts'
import { historySays } from '../register/historySays.ts'
import { dayText } from '../shop/days.ts'
import { says as layerSays } from '../tickets/ticketAnswer.ts'
import { expectKnown } from './actOnPerson.ts'
import { ownMachines } from './ownMachines.ts'
import { signOffTold } from './peopleTold.ts'

const MOST = 2000

/** All that the shop knows of somebody's work, oldest first. @throws Failure 'not found' */
export async function evidenceTold(
  database: Database,
  { personId, now }: Readonly<{ personId: string; now: Date }>,
): Promise<Told<Evidence>> {
  const person = await personOf(database, personId)
  expectKnown(person)
  const people = await allPeople(database)
  const things = { people, machines: await ownMachines(database), now }
  const own = (await tickets(database, { limit: MOST })).filter(
    ({ ticket }) => ticket.ownerId === personId,
  )
  const events = await layerEventsOf(
    database,
    own.map(({ ticket }) => ticket.id),
  )
  const colours = new Map((await inks(database)).map(({ id, name }) => [id, name]))
  const made = (await films(database, { limit: MOST })).filter(
    ({ ownerId }) => ownerId === personId,
  )
  const read = (await readings(database)).filter(({ reading }) => reading.personId === personId)
  const { name, role, className } = person
  return {
    kind: 'process evidence',
    name,
    role,
    className,
    signOffs: (await signOffs(database, { personId })).map((each) => signOffTold(each, things)),
    tickets: own.toReversed().map((whole) => ticketTold(whole, { events, colours })),
    films: made.toReversed().map((film) => ({ name: film.name, on: dayText(film.createdAt) })),
    readings: read.map((whole) => ({
      on: dayText(whole.reading.takenAt),
      says: readingSays(whole),
    })),
    screens: (await eventsOfPerson(database, { personId, limit: MOST })).map(
      ({ tag, ...event }) => ({
        tag,
        on: dayText(event.happenedAt),
        says: historySays(event, people),
      }),
    ),
  }
}

function ticketTold(
  { ticket, layers }: WholeTicket,
  {
    events,
    colours,
  }: Readonly<{
    events: readonly LayerEvent[]
    colours: ReadonlyMap<string, string>
  }>,
): Told<Evidence>['tickets'][number] {
  const ids = new Map(layers.map(({ id, shortName }) => [id, shortName]))
  const own = events.filter(({ layerId }) => ids.has(layerId))
  return {
    code: ticket.code,
    name: ticket.name,
    openedOn: dayText(ticket.createdAt),
    closedOn: ticket.closedAt === null ? null : dayText(ticket.closedAt),
    layers: layers.map(({ id, shortName, inkId }) => {
      const tallies = own.filter(
        (event): event is LayerEvent & Tally => event.layerId === id && event.sheets !== null,
      )
      const { pulled, spoiled } = countSheets(tallies)
      return { shortName, ink: colours.get(inkId ?? '') ?? '', pulled, spoiled }
    }),
    log: own.map((event) => ({
      on: dayText(event.happenedAt),
      says: `${ids.get(event.layerId) ?? ''}: ${layerSays(event)}`,
    })),
  }
}

function readingSays({ reading, bands }: WholeReading): string {
  if (reading.kind === 'wedge') {
    const { lastSolidStep, firstClearStep, doseLu } = reading
    const clear = firstClearStep === null ? '' : `, step ${firstClearStep} washed clear`
    return `a wedge at ${whole(doseLu)} light units: step ${lastSolidStep ?? 0} held whole${clear}`
  }
  const grades = bands.flatMap(({ doseLu, grade }) => (grade === null ? [] : { doseLu, grade }))
  if (reading.kind === 'outcome') {
    return grades
      .map(({ doseLu, grade }) => `a screen at ${whole(doseLu)} light units: ${grade}`)
      .join()
  }
  const said = grades.map(({ doseLu, grade }) => `${whole(doseLu)} ${grade}`)
  return `a test strip, in light units: ${said.join(', ')}`
}

function whole(doseLu: number | null): string {
  return doseLu === null ? '' : String(Math.round(doseLu))
}
