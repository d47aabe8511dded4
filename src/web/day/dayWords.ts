/** A quarter of an hour: 15 minutes; longer than two hours: 3 hours 5 minutes. */
function durationWords(min: number): string {
  const hours = Math.floor(min / 60)
  const rest = min - 60 * hours
  if (hours < 2) return min === 1 ? 'a minute' : `${min} minutes`
  const minutes = rest === 0 ? '' : rest === 1 ? ' 1 minute' : ` ${rest} minutes`
  return `${hours} hours${minutes}`
}

/** What the Day page says. Times come in as 14:20. */
export const DAY_WORDS = {
  fetching: 'Fetching the day …',
  empty: 'Nobody has planned a class for today. Its people, machines and times will stand here.',
  sentence: {
    itIs: (now: string): string => `It is ${now}. `,
    leaves: (station: string): string => `The last screen leaves ${station} at `,
    sinks: { water: 'the sink', light: 'the lamp' } as Readonly<Record<string, string>>,
    ready: '; all are dry and ready to print at ',
    done: 'All screens are done and ready to print.',
    late: (min: number): string => ` That is ${durationWords(min)} after the room closes.`,
  },
  counts: (people: number, screens: number): string =>
    `${people === 1 ? '1 person' : `${people} people`}, ${screens === 1 ? '1 screen' : `${screens} screens`}`,
  closes: (at: string): string => `room closes ${at}`,
  stations: {
    coating: 'Coating',
    drying: 'Drying',
    light: 'Light',
    water: 'Water',
    'drying again': 'Drying',
  } as Readonly<Record<string, string>>,
  machines: { coating: 'Trough', light: 'Lamp', water: 'Sink' } as Readonly<Record<string, string>>,
  printing: 'Printing',
  printingMore: (count: number): string => (count === 0 ? 'nobody yet' : 'ready to print'),
  places: (machines: number, minutes: number, people: boolean): string =>
    people
      ? `${machines === 1 ? 'one' : machines} at once, ${minutes} minutes`
      : `${machines} shelves, ${minutes} minutes`,
  left: (minutes: number): string => (minutes <= 1 ? 'a minute left' : `${minutes} minutes left`),
  machine: (name: string, machine: number): string => `${name} ${machine}`,
  until: (at: string): string => `until ${at}`,
  at: (at: string): string => `at ${at}`,
  again: (at: string): string => `again: ${at}`,
  since: (at: string): string => `since ${at}`,
  nobody: 'nobody now',
  chart: 'Machines against the clock',
  allDone: 'all done',
  shelves: 'Shelves',
  failed: 'A screen failed',
  late: 'Somebody is late',
  print: 'Print the list for the wall',
  end: 'The class is over',
  endSure: 'Put this plan away? It is kept.',
  endYes: 'Put it away',
  endNo: 'Not yet',
  whose: 'Whose screen?',
  whoLate: 'Who?',
  failedLead: 'Whose screen failed? It goes back to',
  lateLead: 'Who is late, and by how many minutes?',
  lateMinutes: 'Minutes late',
  plan: 'Change the plan',
  leave: 'Leave it',
  madeAgain: (person: string, at: string): string =>
    `${person} makes it again, at the lamp at ${at}.`,
  whyFailed: 'Why did it fail?',
  comesAt: (person: string, at: string): string => `${person} begins at ${at}.`,
  movedNone: 'Nobody else moves.',
  moved: (names: string, by: string): string => `${names} ${by}.`,
  later: (min: number): string => `${durationWords(min)} later`,
  earlier: (min: number): string => `${durationWords(min)} earlier`,
  foot: {
    hatched: 'Hatched: made again. ',
    two: (at: string): string => `With two more failures all are dry at ${at}. `,
    last: (at: string): string => `One more screen has to be started by ${at}.`,
    tooLate: 'One more screen cannot be done before the room closes.',
  },
  due: 'Due today',
  dueLine: (tag: string, owner: string | null): string =>
    owner === null ? `Screen ${tag}, nobody’s` : `Screen ${tag}, ${owner}`,
  screens: 'All screens',
  waits: 'What waits',
  list: 'For the wall',
  fresh: {
    act: 'Plan a class',
    again: 'Plan another class',
    lead: 'Who comes, with how many screens each? One line a person, like “Tamsin 2”.',
    title: 'What class',
    titleExample: 'Thursday, second-years',
    begins: 'Begins',
    closes: 'Room closes',
    people: 'People and screens',
    known: (className: string): string => `Take ${className}`,
    everybody: 'Take everybody',
    room: 'The room: how many screens at once, and how many minutes each.',
    machines: (name: string): string => `${name}: screens at once`,
    minutes: (name: string): string => `${name}: minutes`,
    more: 'Drying, lamps and water take what they take: leave time for a screen that must be made again.',
    coated: 'The screens are coated already',
    plan: 'Plan it',
    planning: 'Planning …',
    leave: 'Leave it',
    noPeople: 'Write at least one name.',
    badLine: (line: string): string =>
      `“${line}” is no name with a number of screens from 1 to 10.`,
    badTime: 'Write a time like 13:30.',
    badNumber: 'Write a number from 1 on.',
  },
} as const
