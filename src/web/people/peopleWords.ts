import type { PersonAct, PersonTold } from '../../api/people.ts'
import { dayWords } from './days.ts'

type Role = PersonTold['role']
type Machine = Extract<PersonAct, { kind: 'sign off' }>['machine']

/** What the pages about people say. */
export const PEOPLE_WORDS = {
  title: 'Who is who?',
  fetching: 'Looking people up …',
  open: 'This shop is open: whoever reaches it may do everything. To close it, make somebody a shop lead and give them a password.',
  closed:
    'This shop is closed: people sign in by card or password, and each does what their role may.',
  none: 'Nobody is written down yet.',
  roles: {
    lead: 'shop lead',
    technician: 'technician',
    printer: 'printer',
    guest: 'guest',
  } satisfies Record<Role, string>,
  may: 'A guest looks, a printer works, a technician keeps the room, a lead decides.',
  machines: {
    coating: 'coating',
    drying: 'drying cabinet',
    light: 'light',
    water: 'washout booth',
    'pressure washing': 'pressure washer',
    chemicals: 'reclaiming chemicals',
    printing: 'printing',
    cutting: 'cutter',
    alone: 'working alone',
  } satisfies Record<Machine, string>,
  shown: (machine: string, unit: string | null): string =>
    unit === null ? machine : `${machine} (${unit})`,
  until: (day: string): string => `until ${day}`,
  over: (day: string): string => `ran out ${day}`,
  by: (name: string): string => `by ${name}`,
  noSignOff: 'shown nothing yet',
  noClass: 'in no class',
  find: 'Find somebody',
  noneSo: 'Nobody here is called so.',
  screens: (count: number): string => (count === 1 ? 'one screen' : `${count} screens`),
  change: (name: string): string => `Change ${name}`,
  signOff: {
    what: 'Has been shown',
    unit: 'on',
    allUnits: 'every one',
    until: 'Good until (left open: for good)',
    act: 'Sign off',
    withdraw: (machine: string): string => `Withdraw ${machine}`,
    caution:
      'A sign-off says that somebody was shown the machine, its manual and its dangers. It takes the place of no law and no rule of your house.',
  },
  classChoice: { label: 'Class', choose: 'choose a class' },
  classShown: {
    open: 'A class was shown machines',
    lead: 'An induction for a whole class: each gets the sign-offs they have not got.',
    what: 'Was shown',
    act: 'Sign the class off',
    missing: 'Choose a class, and what it was shown.',
    done: (className: string): string => `${className} is signed off.`,
  },
  first: {
    open: 'What has to be shown first',
    lead: 'Who was not shown what is marked here is asked to stop before they begin, and hears who can show it. Technicians and leads are not asked.',
    act: 'Keep it so',
    done: 'Kept.',
  },
  about: {
    name: 'Name',
    role: 'Role',
    className: 'Class',
    keep: 'Keep it',
  },
  password: {
    word: 'Password, at least ten letters',
    short: 'A password has at least ten letters.',
    act: 'Set the password',
    take: 'Take the password away',
    takeAll: 'Without any lead’s password the shop is open again.',
  },
  leaves: {
    act: 'Leaves the shop',
    after: 'Their name is taken out after (left open: it stays)',
    back: (name: string): string => `${name} is back`,
    gone: 'Who left',
    line: (name: string, on: string, after: string | null): string =>
      `${name} left on ${dayWords(on)}; ${after === null ? 'their name stays written down' : `their name is taken out after ${dayWords(after)}`}.`,
    again: (name: string): string => `Settle it for ${name}`,
    keepSo: 'Keep this day',
  },
  fresh: {
    open: 'Somebody new',
    act: 'Write them in',
    missing: 'Write a name.',
  },
  list: {
    open: 'A class list',
    lead: 'Copy the table of your class in here, or take it from a file: names, or names and classes, one person a line.',
    file: 'Take it from a file (CSV)',
    unreadable: 'This file is no list as text: save the table as CSV, or copy it in here.',
    tooLong: 'This is too long for a list of people: copy the lines of one class in here.',
    text: 'The class list',
    className: 'Class, where the table does not say',
    dry: 'Try it first',
    act: (count: number): string => (count === 1 ? 'Bring one in' : `Bring all ${count} in`),
    would: (count: number, known: number): string =>
      `${count === 1 ? 'One person' : `${count} people`} would come in${known === 0 ? '' : `; ${known} are here already`}.`,
    line: (line: number, says: string): string => `Line ${line}: ${says}`,
    done: (count: number): string =>
      count === 1 ? 'One person came in.' : `${count} people came in.`,
    another: 'Another list',
    empty: 'Copy a list in here first.',
  },
  cards: {
    open: 'Cards to sign in with',
    lead: 'Each card has a code that is shown this once. New cards end the old ones.',
    forWhom: 'For',
    everybody: 'all printers and guests',
    act: 'Make the cards',
    print: 'Print the cards',
    none: 'Nobody of these is here.',
  },
  term: {
    open: 'End of term',
    lead: 'A whole class leaves. What they told the shop’s calibration stays, without their names; what somebody wrote in free words and copies made earlier stay as they are.',
    first: 'First give them their work to take along.',
    deleteAfter: 'Their names are taken out after',
    act: 'The class leaves',
    done: (className: string, count: number): string =>
      `${className} has left: ${count === 1 ? 'one person' : `${count} people`}, written down under “Who left”.`,
    missing: 'Choose a class.',
  },
  evidence: 'Process evidence (PDF)',
  evidenceData: 'the same as data',
  workOf: (name: string, form: string): string => `${form}, ${name}`,
} as const

export const SIGN_IN_WORDS = {
  title: 'Who are you?',
  code: 'The code on your card',
  example: 'h7k-3q9',
  act: 'Sign in',
  missing: 'Write the code of your card, like h7k-3q9.',
  byPassword: 'I have a password',
  byCard: 'I have a card',
  name: 'Your name',
  password: 'Password',
  both: 'Write your name and your password.',
  working: 'Looking at the card …',
  here: (name: string): string => `You are ${name}.`,
  out: 'Sign out on this device',
  lost: 'No card, or lost? A technician or lead makes another under “Who is who?”.',
  toLight: 'Go on to Light',
} as const
