import type { ThingKind } from '../../api/things.ts'
import { dayWords } from '../people/days.ts'

/** What the Shop page says. */
export const SHOP_ROOM_WORDS = {
  fetching: 'Looking round the room …',
  lead: 'Each sentence opens to its facts.',
  look: 'Look: ',
  more: 'More of it',
  paper: 'Fetch the label, PDF',
  change: 'Change it',
  gone: 'It is gone',
  sure: 'Take it out of the room? What was noted is kept.',
  goneYes: 'It is gone',
  goneNo: 'Not yet',
  save: 'Keep it',
  leave: 'Leave it',
  add: 'Note something',
  addLead: 'What is it?',
  kinds: {
    handover: 'a handover note',
    supply: 'something that is used up',
    leftover: 'a leftover ink',
    station: 'places where screens stand',
    machine: 'a press, washer or cutter',
    'hazard text': 'hazard text for a label',
    term: 'a term',
  } as Readonly<Record<ThingKind, string>>,
  wrong: 'Some of it is missing or no number: look at what is marked.',
  incidentWrong: 'Say where it was and what happened.',
  trouble: 'Why did it fail?',
  incident: 'Note an incident',
  incidents: 'Incidents',
  noIncidents: 'No incident was noted.',
  incidentLine: (on: string, place: string): string => `${dayWords(on)}, ${place}: `,
  hurt: {
    nobody: 'Nobody was hurt.',
    nearly: 'Somebody was nearly hurt.',
    somebody: 'Somebody was hurt.',
  },
  incidentLead:
    'First help whoever is hurt, and call for help. What is noted here stays as it was told and takes no report’s place that your rules ask for.',
  place: 'Where',
  what: 'What happened',
  done: 'What was done',
  who: 'Hurt',
  take: 'Note it',
  handover: 'Handover for whoever comes next, PDF',
  year: 'The year’s report, PDF',
  caution:
    'Ultraviolet light, chemicals, pressure water and heavy lids can hurt: manuals, safety data sheets and your room’s rules come first.',
} as const

/** One field of a kind of thing. */
export type Field = Readonly<{
  key: string
  label: string
  is: 'text' | 'long' | 'number' | 'share' | 'day' | 'choice'
  /** It may stay empty. */
  open?: boolean
  unit?: string
  choices?: readonly string[]
}>

/** What is asked of each kind, beside its name. */
export const FIELDS: Readonly<
  Record<ThingKind, Readonly<{ name: string; fields: readonly Field[] }>>
> = {
  handover: {
    name: 'Who and when',
    fields: [
      { key: 'says', label: 'What broke, what is low', is: 'long' },
      { key: 'humidityShare', label: 'Humidity of the room', is: 'share', unit: '%', open: true },
    ],
  },
  supply: {
    name: 'What',
    fields: [
      { key: 'inHand', label: 'In hand', is: 'number' },
      { key: 'unit', label: 'Counted in', is: 'text' },
      { key: 'perWeek', label: 'Used in a week', is: 'number' },
      { key: 'weeksToCome', label: 'Weeks from order to shelf', is: 'number' },
      { key: 'price', label: 'Price of one', is: 'number', open: true },
      { key: 'perCoat', label: 'For one coat', is: 'number', open: true },
    ],
  },
  leftover: {
    name: 'Which ink',
    fields: [
      { key: 'grams', label: 'How much', is: 'number', unit: 'g' },
      { key: 'place', label: 'Where', is: 'text' },
    ],
  },
  station: {
    name: 'What',
    fields: [
      {
        key: 'job',
        label: 'For',
        is: 'choice',
        choices: ['coating', 'drying', 'light', 'water', 'drying again'],
      },
      { key: 'machines', label: 'Screens at once', is: 'number' },
      { key: 'minutes', label: 'Minutes each', is: 'number' },
      { key: 'fans', label: 'Fans, where screens dry', is: 'number', open: true },
      { key: 'humidityShare', label: 'Humidity in it', is: 'share', unit: '%', open: true },
    ],
  },
  machine: {
    name: 'Called',
    fields: [
      {
        key: 'of',
        label: 'It is for',
        is: 'choice',
        choices: ['printing', 'pressure washing', 'cutting'],
      },
    ],
  },
  'hazard text': {
    name: 'Label for',
    fields: [{ key: 'text', label: 'Text, from your own safety data sheet', is: 'long' }],
  },
  term: {
    name: 'Which term',
    fields: [
      { key: 'firstDay', label: 'First day', is: 'day' },
      { key: 'weeks', label: 'Weeks', is: 'number' },
      { key: 'people', label: 'People', is: 'number' },
    ],
  },
}
