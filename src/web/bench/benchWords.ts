import type { Run } from '../../api/bench.ts'
import { layerSaid } from '../../core/ticket/codes.ts'

/** What is exposed, with its layer's short name; what a device kept from before has none. */
export function saidOf({ about, layer }: Pick<Run, 'about'> & Partial<Pick<Run, 'layer'>>): string {
  return layer ? layerSaid(layer, about.subject) : about.subject
}

function seconds(sec: string): string {
  return sec === '1' ? 'one second' : `${sec} seconds`
}

/** What the bench says besides its steps, which come from the shop's computer. */
export const BENCH_WORDS = {
  title: 'At the bench',
  begin: 'Begin',
  beginning: 'Beginning …',
  covered: 'Coated screens stay covered until it is their turn.',
  first: 'Manuals, safety data sheets and the room’s rules come first.',
  lamp: 'The lamp is',
  cold: 'cold',
  hot: 'hot',
  device: 'This device',
  red: 'red alone',
  amber: 'amber',
  coin: 'Amber only after a coin test of this device beside this emulsion.',
  sound: 'sound',
  keys: 'keys N, space, left',
  goOn: 'Go on with',
  stepOf: (at: number, all: number): string => `step ${at} of ${all}`,
  notRight: 'Not right',
  whatIs: 'What is not right?',
  backOne: 'One step back',
  allRight: 'It is all right',
  leave: 'Leave the bench',
  leaving: 'Is all unexposed emulsion covered?',
  leaveYes: 'It is: leave',
  leaveNo: 'Not yet',
  says: (value: string): string => `It says ${value}`,
  off: (value: string, planned: string): string =>
    `${value} is far off ${planned}: set it again, or say what is meant under Not right.`,
  bothFirst: 'Set both numbers first',
  less: (by: number): string => `${by} less`,
  more: (by: number): string => `${by} more`,
  lastSolid: 'last solid',
  firstClear: 'first clear',
  none: '–',
  gauge: 'gauge',
  gaugeOff: (usual: string): string =>
    `It stood at ${usual} before: look at cord, rim and blanket.`,
  lit: {
    'as reckoned': (sec: string): string => `It was lit for ${seconds(sec)}, as reckoned.`,
    'too short': (sec: string): string => `Lit for ${seconds(sec)} only: was it set right?`,
    'too long': (sec: string): string => `Lit for ${seconds(sec)}, too long: was it set right?`,
  },
  litFor: (sec: string): string => `It was lit for ${seconds(sec)}.`,
  cools: (left: string): string => `The lamp cools: ${left}`,
  over: (past: string): string => `${past} over`,
  left: (sec: number): string =>
    sec === 0 ? 'Time is up' : sec === 1 ? 'One second left' : `${sec} seconds left`,
  unsent: (count: number, since: string): string =>
    `No connection since ${since}. ${count === 1 ? 'One note is' : `${count} notes are`} kept here and will be sent.`,
  through: 'It is done',
  stopped: 'Stopped here',
  wedgeTaken: 'The wedge went to Tests.',
  outcomeTaken: 'How it came out went to Tests.',
  nothingTaken: 'Nothing of it went to Tests.',
  light: 'Next film: ask Light',
  ticket: (code: string): string => `On with ticket ${code}`,
  check: 'Check it by photo',
  why: 'Why did it fail?',
  limits: 'If the lid leaks?',
  lies: 'As it lies, seen from above the glass.',
  held: 'As it should look from the squeegee side.',
  ringed: 'The ringed marks open last.',
  filmOf: (subject: string): string => `The marks of ${subject}, as they should be open.`,
  fetching: 'Fetching this exposure …',
  noRun: 'This exposure is not kept on this device, and there is no connection.',
} as const
