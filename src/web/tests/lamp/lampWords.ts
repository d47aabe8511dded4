import { TESTS_TITLES } from '../../words.ts'

/** What the lamp's page says, in English. Numbers come in already written for people. */
export const LAMP_WORDS = {
  title: TESTS_TITLES.lamp,
  lead: 'Of',
  unit: 'Lamp',
  working: 'Fitting the lamp …',
  nothing: 'How the lamp warms up and how it ages will stand here.',
  stands: (hours: string | null, fitted: string | null): string => {
    if (hours === null && fitted === null) return 'Nobody has said how old this lamp is.'
    if (fitted === null) return `It has ${hours} hours.`
    return hours === null ? `Fitted on ${fitted}.` : `Fitted on ${fitted}; it has ${hours} hours.`
  },
  warmUp: 'How it warms up',
  noWarmUp:
    'Not known yet. Read clock and counter together some six times while a cold lamp runs, then tell it here.',
  noWarmUpSeconds:
    'Not known yet. Read clock and a light meter’s sum together some six times while a cold lamp runs, then tell it here. The sun warms up for nobody.',
  warmUpSays: (cold: string, hot: string, tau: string): string =>
    `${cold} counts a second when cold, ${hot} when hot; most of the way is done after ${tau} seconds.`,
  warmUpAlt: (count: string, sec: string): string =>
    `Counts over the clock’s seconds: the pairs that were read, and the line through them, up to ${count} counts at ${sec} seconds.`,
  warmUpMore: 'Counts over the clock’s seconds. Points are what was read; the line is the lamp.',
  pairsTable: 'Clock and counter, newest timing',
  clock: 'Clock',
  count: 'Counter',
  curve: 'The line says',
  times: 'What that means in seconds',
  timesMore:
    'Only a check: the counter ends the exposure by itself. A lamp that was lit much shorter or longer was set to another number.',
  columns: {
    count: 'Counts',
    cold: 'From cold',
    hot: 'From hot',
    plain: 'A cold lamp in the hot one’s time gives',
  },
  sec: (value: string): string => `${value} s`,
  ageing: 'How it ages',
  noAgeing:
    'Timings from several weeks, with the lamp’s hours, will show how fast it grows weaker.',
  ageingAlt: (low: string, high: string): string =>
    `Counts a second of the hot lamp over its hours, from ${low} to ${high} hours, with the line through them.`,
  ageingMore: 'Counts a second, hot, over the lamp’s hours. The longer a thread, the vaguer.',
  ageingTable: 'Hot lamp by its hours',
  hours: 'Lamp hours',
  perSec: 'Counts a second',
  says: 'What follows',
  tell: 'Tell a timing',
  tellHow:
    'Start the lamp and the clock together, lid closed. Write the counter down now and then: six pairs in four minutes tell it.',
  tellHowSeconds:
    'A lamp without a counter is timed with a light meter that adds up its light, laid where the film lies. Start lamp and clock together and write the sum down now and then: six pairs in four minutes tell it. The sun warms up for nobody and needs none of this.',
  sum: 'Meter’s sum',
  caution: 'Do not look at the lamp. Read the counter, not the light; the lid stays closed.',
  from: 'The lamp was',
  fromWords: { cold: 'cold, off for an hour', hot: 'hot, just used' },
  lampHours: 'Lamp hours, if it shows them',
  day: 'Timed on',
  clockAt: (number: number): string => `Clock, pair ${number}`,
  countAt: (number: number): string => `Counter, pair ${number}`,
  clockExample: '0:30',
  countExample: '24',
  morePairs: 'More pairs',
  act: 'Take it down',
  busy: 'Taking it down …',
  taken: 'The timing is taken down.',
  wrongClock: (written: string): string =>
    `The clock must be seconds or minutes and seconds, like 90 or 1:30. You wrote “${written}”.`,
  wrongCount: (written: string): string =>
    `The counter must be a number, like 24. You wrote “${written}”.`,
  half: 'A pair wants both the clock and the counter.',
  falling: 'The counter cannot fall while the clock runs on.',
  tooFew: 'Two pairs at least; six tell more.',
  wrongHours: (written: string): string =>
    `Lamp hours must be a number, like 320. You wrote “${written}”.`,
  newLamp: 'A new lamp was fitted',
  newLampHow:
    'From then on the lamp is believed anew; what was read under the old one stays in the records.',
  newLampOn: 'Fitted on',
  newLampHours: 'Its hours, where it is not quite new',
  newLampAct: 'It was fitted',
  newLampCaution:
    'A licensed person fits a lamp: mains off, lamp cold, gloves on, and the old one goes where mercury is taken back.',
  newLampTaken: 'The new lamp is taken down.',
  leave: 'Leave it',
  even: 'How even is the light?',
} as const
