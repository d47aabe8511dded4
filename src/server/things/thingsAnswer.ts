import { hazardLabelPath } from '../../api/paths.ts'
import { type NewThing, newThing, type RoomSentence, type Things } from '../../api/things.ts'
import { incidents } from '../../store/incidents.ts'
import { currencyOf } from '../../store/money.ts'
import { theShop } from '../../store/shop.ts'
import { type Thing, things } from '../../store/things.ts'
import { dateWords } from '../../workflow/papers/dayWords.ts'
import {
  capital,
  count,
  type Said,
  supplySaid,
  termOn,
  termSaid,
} from '../../workflow/roomSentences.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { emulsionsSaid, lampsSaid, recordsSaid, type Sentence } from './roomRecords.ts'
import { yearSaid } from './yearSaid.ts'

const MOST_INCIDENTS = 30
/** A reliable stencil wants less. Common practice, no source. */
const DAMP_SHARE = 0.5

type Known = Readonly<{ thing: Thing; told: NewThing }>
type Of<Kind extends NewThing['kind']> = Extract<NewThing, { kind: Kind }>

/** All that stands in the room, as sentences; groups without any are left out. */
export async function thingsTold(service: ShopService): Promise<Told<Things>> {
  const { database } = service.store
  const known: readonly Known[] = (await things(database)).map((thing) => ({
    thing,
    // we wrote it by this contract
    told: newThing.parse({ kind: thing.kind, name: thing.name, facts: thing.facts }),
  }))
  const today = dayText(service.now())
  const groups: readonly Readonly<{ name: string; sentences: readonly Sentence[] }>[] = [
    { name: 'Handed over', sentences: handovers(known) },
    { name: 'Lamps', sentences: await lampsSaid(service) },
    {
      name: 'Drying and machines',
      sentences: await recordsSaid(service, [...stations(known), ...machines(known)]),
    },
    { name: 'Emulsions', sentences: [...(await emulsionsSaid(service)), ...hazards(known)] },
    { name: 'Leftover inks', sentences: leftovers(known) },
    {
      name: 'Used up',
      sentences: supplies(known, { today, currency: await currencyOf(database) }),
    },
    { name: 'This year', sentences: await yearSaid(service) },
  ]
  const told = await incidents(database, { limit: MOST_INCIDENTS })
  return {
    kind: 'things',
    demo: (await theShop(database)).kind === 'demo',
    groups: groups.filter(({ sentences }) => sentences.length > 0),
    incidents: told.map(({ id, happenedAt, place, what, done, hurt }) => ({
      id,
      on: dayText(happenedAt),
      place,
      what,
      done,
      hurt,
    })),
  }
}

function handovers(known: readonly Known[]): readonly Sentence[] {
  return ofKind(known, 'handover')
    .toReversed()
    .map(({ thing, told }) => {
      const { says, humidityShare } = told.facts
      const facts = [
        `Noted on ${dateWords(dayText(thing.changedAt))}.`,
        ...(humidityShare === null
          ? []
          : [`The room was at ${Math.round(humidityShare * 100)} % humidity.`]),
      ]
      const look = humidityShare !== null && humidityShare > DAMP_SHARE
      return sentenceOf(thing, told, { says: `${told.name}: ${says}`, look, facts })
    })
}

function stations(known: readonly Known[]): readonly Sentence[] {
  return ofKind(known, 'station').map(({ thing, told }) => {
    const { machines, minutes, job, fans, humidityShare } = told.facts
    const many = machines === 1 ? 'one screen' : `${machines} screens`
    const says = `${capital(told.name)}: ${many} at once, ${minutes} minutes each.`
    const damp = humidityShare === null ? '' : `${Math.round(humidityShare * 100)} % humidity in it`
    const blown = fans === null ? '' : fans === 0 ? 'no fan' : count(fans, 'fan')
    const air = [blown, damp].filter((part) => part !== '').join(', ')
    const facts = [
      `Day plans ${job} with it.`,
      ...(air === '' ? [] : [`${capital(air)}, noted on ${dateWords(dayText(thing.changedAt))}.`]),
    ]
    const look = humidityShare !== null && humidityShare > DAMP_SHARE
    return sentenceOf(thing, told, { says, look, facts })
  })
}

/** One press, washer or cutter each. */
function machines(known: readonly Known[]): readonly Sentence[] {
  return ofKind(known, 'machine').map(({ thing, told }) =>
    sentenceOf(thing, told, {
      says: `${capital(told.name)} is ${LISTED[told.facts.of]}.`,
      look: false,
      facts: ['Where there are several of a sort, people can be signed off for one of them.'],
    }),
  )
}

const LISTED = {
  'pressure washing': 'a pressure washer',
  printing: 'a press',
  cutting: 'a cutter',
} as const

function hazards(known: readonly Known[]): readonly Sentence[] {
  return ofKind(known, 'hazard text').map(({ thing, told }) => ({
    ...sentenceOf(thing, told, {
      says: `The label for ${told.name} has the shop’s own hazard text.`,
      look: false,
      facts: [told.facts.text],
    }),
    paper: hazardLabelPath(thing.id),
  }))
}

/** By colour: round the circle of hues. */
function leftovers(known: readonly Known[]): readonly Sentence[] {
  const hue = ({ told }: Readonly<{ told: Of<'leftover'> }>): number =>
    told.facts.lab === null ? 9 : Math.atan2(told.facts.lab[2], told.facts.lab[1])
  return ofKind(known, 'leftover')
    .toSorted((a, b) => hue(a) - hue(b))
    .map(({ thing, told }) => {
      const { grams, place } = told.facts
      const says = `${capital(told.name)}: ${Math.round(grams)} g, ${place}.`
      return sentenceOf(thing, told, {
        says,
        look: false,
        facts: [`Weighed on ${dateWords(dayText(thing.changedAt))}.`],
      })
    })
}

function supplies(
  known: readonly Known[],
  by: Readonly<{ today: string; currency: string | null }>,
): readonly Sentence[] {
  const terms = ofKind(known, 'term')
  const term = termOn(
    terms.map(({ told }) => ({ name: told.name, ...told.facts })),
    by.today,
  )
  const all = ofKind(known, 'supply')
  const facts = all.map(({ told }) => ({ name: told.name, ...told.facts }))
  return [
    ...all.map(({ thing, told }) =>
      sentenceOf(thing, told, supplySaid({ name: told.name, ...told.facts }, { term, ...by })),
    ),
    ...terms.map(({ thing, told }) =>
      sentenceOf(
        thing,
        told,
        termSaid({ name: told.name, ...told.facts }, { supplies: facts, ...by }),
      ),
    ),
  ]
}

function ofKind<Kind extends NewThing['kind']>(
  known: readonly Known[],
  kind: Kind,
): readonly Readonly<{ thing: Thing; told: Of<Kind> }>[] {
  return known.flatMap(({ thing, told }) =>
    told.kind === kind ? [{ thing, told: told as Of<Kind> }] : [],
  )
}

function sentenceOf({ id }: Thing, told: NewThing, said: Said): Told<RoomSentence> {
  return { id, ...said, to: null, paper: null, thing: { id, told } }
}
