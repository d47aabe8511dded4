/** What the Film page says, in English. Numbers come in already written for people. */
export const FILM_WORDS = {
  title: 'Will it hold?',
  toPlace: 'Where to lay it',
  looks: {
    'as drawn': 'as drawn',
    'what will open': 'what will open',
    'as it will print': 'as it will print',
  },
  looksLabel: 'How the film is shown',
  printLater: 'As it will print, with ink on paper, comes in a later version.',
  signs: { opens: 'opens', doubt: 'in doubt', shut: 'stays shut', loose: 'ground may wash away' },
  cloth: {
    across: 'too little: the ground washes away',
    middle: 'threads along: your marks, the palest lowest',
    along: 'too much: marks fill in',
    acrossShort: 'too little: washes away',
  },
  stage: 'The film at true proportions. Plus and minus come nearer and go back, arrows move.',
  nearer: 'nearer',
  back: 'further',
  whole: 'whole film',
  howNear: (mm: string): string => `${mm} wide in view`,
  finer: (percent: string): string => `; finer pixels are still being made, ${percent} done`,
  at: ', at ',
  shares: {
    all: 'All of it',
    nearly: 'Nearly all of it',
    most: 'Most of it',
    half: 'About half of it',
    little: 'Little of it',
    none: 'Nothing of it',
  },
  noMarks:
    'Nothing on this film is dense enough to be a mark. Check that dark and clear are not swapped.',
  groundWashes: 'The ground would wash away: too little light.',
  passages: (count: number): string =>
    count === 1
      ? 'One passage is too pale to open while the rest hardens.'
      : `${NUMBERS[count] ?? count} passages are too pale to open while the rest hardens.`,
  narrower: (count: number): string =>
    count === 1
      ? 'One passage is in doubt at this dose.'
      : `${NUMBERS[count] ?? count} passages are in doubt at this dose.`,
  opens: (upTo: string): string => `Opens. It begins to close above ${upTo}.`,
  fates: {
    veiled: 'A thin skin may stay in it.',
    soft: 'A thick skin stays in it.',
    closed: 'Stays shut.',
  },
  takeLess: (upTo: string): string => `It opens up to ${upTo}; go over it once more to be safe.`,
  noDose: 'No dose opens it and hardens the ground.',
  goOver: 'Go over it once more.',
  wide: (width: string): string => `lines about ${width} wide`,
  tone: 'a broad tone',
  grain: 'pale grain',
  hairlines: 'hairlines',
  listLabel: 'Where to look, worst first',
  more: (count: number): string =>
    count === 1 ? 'Show one more' : `Show ${(NUMBERS[count] ?? String(count)).toLowerCase()} more`,
  fewer: 'Show only the worst',
  finding: 'Looking for the weakest marks …',
  findingSo: (percent: string): string => `Looking for the weakest marks: ${percent} done.`,
  reading: (percent: string): string => `Reading the film: ${percent} done.`,
  waiting: 'The film waits for its turn to be read.',
  fetching: 'Fetching the film …',
  inTen: (good: number): string => (good === 1 ? '1 screen in 10' : `${good} screens in 10`),
  comeOut: (good: number): string =>
    good === 1 ? ' comes out good at this dose. ' : ' come out good at this dose. ',
  accuracy: (dpi: string, line: string): string =>
    `Read at ${dpi} pixels per inch: lines under ${line} cannot be judged from it.`,
  byPhoto: (sd: string, highest: string): string =>
    `Read from a photo: a density is right to about ${sd}, and what is denser than ${highest} counts as that.`,
  byPhotoWedge:
    'The wedge beside it stands behind this; what it was made with hardly moves the dose.',
  byPhotoNoWedge:
    'No wedge lay beside it, so what it was made with has a say in the dose: by much where it is another than the film looks.',
  byPhotoLine: (line: string): string => `Lines under ${line} are drawn paler than they are.`,
  madeWith: 'Its marks are made with',
  madeWithLabel: 'What its marks were made with',
  madeWithOpen: 'nobody said what',
  use: (value: string): string => `Use ${value} for this film`,
  byHand: (value: string, unit: string): string =>
    `By hand: set the lamp to ${value} ${unit}, lay the film image side to the emulsion, close the lid, start, and wash out when it has ended. The lamp’s manual comes first.`,
  cautionLid: 'The lid is heavy. Hold it until it rests.',
  cautionLamp:
    'Do not look at the lamp. It lights only with the lid closed; leave that switch alone.',
  why: 'Why?',
  darker: 'I drew it darker',
  faint: (length: string, density: string): string =>
    `There are faint thin lines, about ${length} of them, paler than density ${density}. Are they underdrawing?`,
  faintShut: 'Yes, they stay shut',
  faintPrints: 'No, they print',
  faintAsked: {
    'stays shut': 'The underdrawing stays shut, as you asked.',
    prints: 'The faint lines print, as you asked.',
  },
  faintAgain: 'Ask me again',
  spoken: (value: string, unit: string, says: string): string =>
    `Forecast at ${value} ${unit}: ${says}`,
  spokenDrawn: 'The film as it was drawn.',
  sides: {
    rows: ['top', 'middle', 'lower'],
    columns: ['left', 'middle', 'right'],
    centre: 'In the middle',
  },
  warnings: 'About the file',
} as const

const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine']

export const UPLOAD_WORDS = {
  title: 'Will it hold?',
  intro:
    'Bring a film: a scan, a density map or a film file, PNG, JPEG, TIFF, WebP or a PDF that was made here.',
  drop: 'Drop the file here',
  choose: 'Choose a file',
  phone: 'or take it from the phone’s pictures',
  photos: 'I have a photo of a film on the light table',
  artwork: 'It is artwork: part it into films to print',
  asFileSays: 'as the file says',
  sentence: {
    it: 'It has',
    dpi: 'pixels per inch',
    black: 'full black is density',
    reads: 'grey is',
  },
  labels: {
    resolutionDpi: 'Pixels per inch',
    solidDensity: 'Density of full black',
    as: 'What grey means',
  },
  usualDensity: '3.5',
  as: { transmission: 'light let through', coverage: 'area covered' },
  wrongNumber: (label: string, low: number, high: number, written: string): string =>
    `${label} must be a number from ${low} to ${high}. You wrote “${written}”.`,
  send: (name: string): string => `Read ${name}`,
  sendAgain: (name: string): string => `Read ${name} again`,
  sending: (percent: string): string => `On its way: ${percent}.`,
  reading: (percent: string): string => `Being read: ${percent}.`,
  waiting: 'It has arrived and waits for its turn to be read.',
  cut: 'The file did not arrive: no connection. It is still chosen here; send it again.',
  stop: 'Stop',
  stopped: 'Stopped. Nothing of it is kept in the shop.',
  notStopped: 'No connection: it may still be read, and then stands among the films that are here.',
  films: 'Films that are here',
  noFilms: 'No film has been read in this shop yet.',
  film: (width: string, height: string): string => `${width} by ${height}`,
  failed: 'could not be read',
  notYet: 'being read',
} as const
