/** What the pages say, in English. Numbers come in already written for people. */
export const CLOTH_WORDS = {
  tooLittle: 'too little: washes away',
  tooMuch: 'too much: fills in',
  dose: 'Dose',
  doseIs: (value: string, unit: string): string => `${value} ${unit}`,
  picture: (parts: Readonly<{ value: string; low: string; high: string; unit: string }>): string =>
    `Doses from ${parts.low} to ${parts.high} ${parts.unit} on a cloth: threads along are marks ` +
    `that stay open, threads across are ground that holds. The bar stands at ${parts.value}.`,
} as const

export const FRAME_WORDS = {
  name: 'Yellowroom',
  toPage: 'Skip to the page',
  doorsLabel: 'Rooms',
  doors: { light: 'Light', tickets: 'Tickets', day: 'Day', tests: 'Tests', shop: 'Shop' },
  demo: (name: string): string => `DEMO SHOP: ${name}, invented`,
  demoShort: 'DEMO SHOP',
  demoRest: (name: string): string => `: ${name}, invented`,
  demoLine: (name: string): string => `${name} is a demo shop: everything in it is invented.`,
  noShop: 'NO SHOP YET',
  units: { metric: 'mm, per cm', imperial: 'inch, per inch' },
  changeUnits: 'change units',
  scheme: { paper: 'paper', night: 'night', device: 'as the device' },
  changeScheme: 'change the page’s colours',
  settings: 'How the pages are shown',
  opening: 'The shop’s computer is opening its records. This takes a few seconds.',
  openingTitle: 'One moment',
  refusedTitle: 'The shop stays shut',
  noConnectionTitle: 'Not connected',
  fetching: 'Fetching the shop …',
  noConnection: 'No connection to the shop’s computer. It will be tried again by itself.',
  asOf: (clock: string): string => `As of ${clock}, no connection.`,
  again: 'Try again',
  filmTitle: 'Will it hold?',
  photoTitle: 'Photograph your film',
  checkTitle: 'Is it open?',
  benchTitle: 'At the bench',
  ticketsTitle: 'What next?',
  ticketTitle: 'A ticket',
  noSuchPage: 'There is no such page',
  noSuchPageMore: 'This address leads nowhere. The doors lead to everything there is.',
  caution:
    'Ultraviolet light, chemicals, pressure water and heavy lids can hurt: equipment manuals, safety data sheets and your room’s rules come first.',
  printed: (day: string): string => `Printed ${day}`,
  ownShop: (name: string): string => name,
} as const

export const SIGN_WORDS = {
  title: 'The signs of Yellowroom',
  intro: 'one meaning each, the same on every page, with or without colour',
  link: 'What the signs mean',
  cloth: 'Cloth: which doses work',
  cloths: [
    'Threads along: marks stay open. Threads across: the ground holds. Woven: both, so it works.',
    'Frayed ends: we are in doubt where it begins and ends. Every thread along is one equal chance.',
    'A narrow cloth: soft pencil. The bar stands on the dose that is likeliest to be good.',
    'No cloth: no dose does both. The gap stays bare and the advice is in words.',
  ],
  marks: 'Marks: what the stencil will do',
  markNames: {
    opens: ['opens', 'Full ink.'],
    thin: ['in doubt, thin skin', 'Threads one way.'],
    thick: ['in doubt, thick skin', 'Threads closer.'],
    shut: ['stays shut', 'Only the outline.'],
  },
  number: 'A number that could be off',
  numberMore: 'Value, unit, range, then one of four words:',
  numberWords: [
    ['sure', '9 in 10'],
    ['fairly sure', '7 or 8'],
    ['in doubt', '5 or 6'],
    ['a first guess', 'under 5, or hardly a reading of our own'],
  ],
  frames: 'Frames: where a screen is',
  frameNames: {
    'not yet': 'not yet',
    'here now': 'here now',
    drying: 'drying, waiting',
    done: 'done, ready',
    'make again': 'make again',
  },
  ten: 'Ten screens: how sure',
  tenMore: 'Always said in words beside it.',
  ring: 'A ring with a number: look here',
  ringMore: 'The same number stands in the list beside the picture.',
  things: 'Things of the room',
} as const

export const ROOM_WORDS = {
  day: {
    title: 'Who is next?',
  },
  shop: {
    title: 'What stands in the room',
    notYet: 'The lists of lamps, screens, emulsions and people are not built yet.',
    instead: 'What the shop has can be chosen in the sentence on Light.',
  },
  toLight: 'Ask Light for a dose',
} as const

/** The rooms behind the door Tests; what they say is fetched when one goes there. */
export const TESTS_TITLES = {
  tests: 'What we believe',
  strip: 'Which doses to try?',
  read: 'How did it come out?',
  readings: 'What it rests on',
  lamp: 'How is the lamp?',
  evenness: 'How even is the light?',
  notes: 'Old notes',
} as const

export const LIGHT_WORDS = {
  title: 'How much light?',
  for: 'For',
  on: 'on',
  under: 'under',
  today: 'today:',
  subject: 'Medium or film',
  media: 'Media',
  films: 'Films',
  base: 'Base',
  screen: 'Screen',
  unit: 'Lamp',
  whichScreen: 'any screen',
  units: { 'light units': 'light units', seconds: 'seconds' },
  short: { 'light units': 'lu', seconds: 's' },
  shouldWork: (low: string, high: string): string => `${low} to ${high} should work`,
  couldBeRight: (low: string, high: string): string => `a first guess, ${low} to ${high}`,
  noDose: 'No dose does both',
  opensUpTo: (value: string, unit: string): string =>
    `${value} ${unit} is the most that opens the marks`,
  inTen: (good: number): string => (good === 1 ? '1 screen in 10' : `${good} screens in 10`),
  comeOut: (good: number): string =>
    good === 1 ? ' like this comes out good. ' : ' like this come out good. ',
  why: 'Why?',
  sure: (word: string): string => `We are ${word}.`,
  firstGuess: 'This is a first guess.',
  working: 'Weighing what is known …',
  answered: (value: string, unit: string, low: string, high: string): string =>
    `${value} ${unit}, ${low} to ${high}`,
  act: 'Take it to the bench',
  fromColdAndHot: (cold: string, hot: string): string => `from cold ${cold}, hot ${hot}; `,
  notTimed:
    'Nobody has timed this lamp from cold yet: do it once, on Tests under The lamp, and the seconds of a cold one stand here too.',
  byMeter: 'Today’s seconds by a light meter',
  strip: 'Make a test strip',
  place: 'Where it lies on the glass',
  ownDrawing: 'My own drawing: photograph it',
  nothing: 'The dose will stand here as soon as a lamp is known.',
  noMedia:
    'This shop has no medium, base or lamp written down yet, so there is nothing to ask about.',
} as const

export const FIRST_WORDS = {
  title: 'Set up my shop',
  intro: 'Five facts are enough to begin. Fill the blanks you know.',
  lampCounts: 'Our lamp counts',
  mostScreens: 'Most of our screens are',
  in: 'in',
  coated: 'coated',
  with: 'with',
  lastTime: 'Last time',
  anotherTime: 'Another time',
  at: 'at',
  cameOut: 'came out',
  labels: {
    countsIn: 'What the lamp counts',
    fabric: 'Usual fabric',
    colour: 'Colour of the fabric',
    coats: 'How it is coated',
    emulsion: 'Kind of emulsion',
    medium: 'Medium used last time',
    dose: 'Dose of last time',
    outcome: 'How it came out',
    anotherMedium: 'Another medium',
    anotherDose: 'Its dose',
    anotherOutcome: 'How that came out',
    shopName: 'Name of the shop',
  },
  open: {
    countsIn: 'light units or time',
    fabric: 'some fabric',
    colour: 'some colour',
    coats: 'somehow',
    emulsion: 'some emulsion',
    medium: 'some medium',
    dose: 'a dose',
    outcome: 'somehow',
    shopName: 'our print room',
  },
  countsIn: { 'light units': 'light units', seconds: 'only time, in seconds' },
  colour: { white: 'white', dyed: 'yellow' },
  dyed: 'or another dye',
  coats: {
    'once on each side': 'once on each side',
    'twice on the print side': 'twice on the print side',
    more: 'more often',
  },
  emulsion: {
    'ready-mixed': 'a ready-mixed emulsion',
    'two-part': 'a two-part emulsion',
    'not sure': 'an emulsion we are not sure of',
  },
  outcome: {
    'washed off': 'washed off in places',
    soft: 'good, with slime inside',
    good: 'good, with sharp edges',
    filling: 'a little filled in',
    filled: 'filled in',
  },
  another: 'Another one you remember makes us surer:',
  addAnother: 'add it',
  called: 'The shop is called',
  thenBegin: (medium: string): string => `Then begin ${medium} at`,
  couldBe: (unit: string, low: string, high: string): string =>
    `${unit}; ${low} to ${high} could be right`,
  wouldComeOut: ' would come out good: ',
  thisIs: (word: string): string =>
    word === 'a first guess' ? 'this is a first guess.' : `we are ${word}.`,
  afterStrip: (good: number): string => `${good} in 10`,
  afterStripMore: ' after one test strip, 15 minutes. ',
  strip: 'How to make one',
  stripHow:
    'Open the shop, then go to Tests: it says which doses to try, prints the film for it, and takes down how each band came out.',
  act: 'Open the shop',
  opening: 'Opening …',
  demo: 'Look round the demo shop first',
  about:
    'The demo shop is invented and says so on every page. Nothing from it enters your shop. Ultraviolet light, chemicals and pressure water can hurt: manuals, safety data sheets and your room’s rules come first.',
  working: 'Working out the first dose …',
  wrongDose: (written: string): string =>
    `The dose must be a number, like 70. You wrote “${written}”.`,
} as const
