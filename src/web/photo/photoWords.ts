/** What the pages of photos say, in English. Numbers come in already written for people. */
export const PHOTO_WORDS = {
  title: 'Photograph your film',
  intro:
    'Lay the reading mat on a light table, the film in its window and the step wedge in its slot. Take the photo from straight above, all of the mat in it.',
  cautionLamp: 'A light table, never the exposure unit: do not look into its lamp.',
  cautionWater: 'Dry hands and a dry film: a light table hangs on the mains.',
  take: 'Take the photo',
  choose: 'Choose a photo',
  mat: 'Fetch the reading mat (PDF)',
  matOn: 'on',
  matPaper: 'Paper of the reading mat',
  matOnce:
    'Print it once at its true size, cut it out, and keep it by the light table. Without a mat the corners are shown by hand.',
  file: 'It is a film file',
  sending: (percent: string): string => `Sending the photo: ${percent}`,
  looking: 'Looking at the photo …',
  reading: 'Reading the film in it …',
  stop: 'Stop',
  cut: 'The connection was cut. The photo is kept here: send it again.',
  again: 'Take another photo',
  fetching: 'Fetching the photo …',
  picture: (name: string): string => `The photo ${name}, with what is looked at in it`,
  found: 'This is what I found in it.',
  whereTitle: { film: 'Where does the sheet lie?', screen: 'Where does the film’s picture lie?' },
  cornersHow:
    'Drag the four corners to where they are. With keys: Tab to a corner, then the arrows; with Shift ten times as far.',
  corners: ['Top left corner', 'Top right corner', 'Bottom right corner', 'Bottom left corner'],
  wedgeEnds: ['Clear end of the wedge', 'Dark end of the wedge'],
  placed: (name: string, x: string, y: string): string =>
    `${name}: ${x} from the left, ${y} from the top`,
  crossed: 'The corners cross: go round the sheet from its top left.',
  size: {
    the: 'The sheet is',
    by: 'by',
    units: { metric: 'mm', imperial: 'inches' },
    end: 'large.',
    width: 'Width of the sheet',
    height: 'Height of the sheet',
    open: 'a length',
  },
  wedge: {
    is: 'A step wedge',
    label: 'Step wedge in the photo',
    none: 'is not in the photo',
    here: 'lies where I show it',
    first: ': its first step has density',
    firstLabel: 'Density of the first step',
    each: ', each of its',
    stepsLabel: 'Number of steps',
    steps: 'steps',
    incrementLabel: 'Density from step to step',
    more: 'more.',
    how: 'Drag its two handles to the middle of its first and of its last step.',
  },
  wrongLength: (label: string, written: string): string =>
    `${label} must be a length like 420 mm or 16 in. You wrote “${written}”.`,
  wrongNumber: (label: string, low: string, high: string, written: string): string =>
    `${label} must be a number from ${low} to ${high}. You wrote “${written}”.`,
  read: 'Read it',
  readAgain: 'Read it again',
  wrongCorners: 'The corners or the wedge are wrong',
  sizeFirst: 'Write how large the sheet is: corners alone tell no size.',
  accuracy: (density: string, line: string): string =>
    `Density right to about ${density}. Lines under ${line} cannot be judged from it.`,
  sizeSays: (width: string, height: string): string => `The film is ${width} by ${height}.`,
  range: (low: string, high: string): string =>
    `The photo tells densities from ${low} to ${high} apart.`,
  wedgeSays: (steps: string, first: string, increment: string): string =>
    `Measured by the step wedge in the picture: ${steps} steps from ${first}, each ${increment} more.`,
  noWedge: 'No step wedge was measured: the densities are an estimate, and the doubt is larger.',
  mirroredAsk: 'Does it read as it should print?',
  mirroredWhy:
    'A photo cannot tell whether the film lay face up or face down, nor which way up it is: all look alike to it. Letters and your own eye can.',
  upsideDown: 'It is upside down: turn it round',
  madeWith: 'Its marks are made with',
  madeWithLabel: 'What the marks are made with',
  madeWithOpen: 'choose what',
  madeWithWhy:
    'Correct it if that is wrong: a photo sees how dense a mark is, not what it is made of.',
  madeWithChoose: 'Say it if you know: a photo sees how dense a mark is, not what it is made of.',
  mirroredYes: 'It reads right: will it hold?',
  mirroredNo: 'It is mirrored: turn it over',
  mirroredBack: 'Turn it back',
  straightened: (name: string, turned: boolean, round: boolean): string =>
    `The film of ${name}, straightened${turned ? ', turned over' : ''}${round ? ', turned round' : ''}`,
  becoming: 'The film is taken in …',
} as const
