import type { Mode } from '../../core/separation/plan.ts'
import type { DotKind, EdgeWay } from './planFile.ts'

const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine']
const count = (of: number): string => NUMBERS[of] ?? String(of)
const small = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1)
export const large = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

/** A share for people: 13 %, and below two of a hundred with a decimal. */
export function percentText(share: number): string {
  const percent = 100 * share
  return `${Number(percent.toFixed(percent < 2 ? 1 : 0))} %`
}

/** What the page of films to print says, in English. Numbers come in already written for people. */
export const FILMS_WORDS = {
  title: 'Films to print',
  list: {
    intro:
      'Bring the artwork as a file: a picture or a drawing. It is parted into inks, and each becomes a film at its true size.',
    drop: 'Drop the artwork here',
    choose: 'Choose a file',
    takes: 'PNG, JPEG, TIFF, WebP, SVG or PDF',
    sending: (percent: string): string => `On its way: ${percent} sent.`,
    cut: 'The connection broke off. The file is kept: choose it again.',
    stop: 'Stop sending',
    here: 'Artwork in this shop',
    none: 'What is brought stands here, with its films.',
    films: (films: number): string =>
      films === 0 ? 'no films yet' : films === 1 ? '1 film made' : `${films} films made`,
    failed: 'could not be used',
    fetching: 'Fetching the artwork …',
    drawn: 'It is a film already: bring it as one',
    forTicket: (name: string): string => `It goes onto ticket ${name}.`,
  },
  fetching: 'Fetching the artwork …',
  looking: 'Looking at the artwork …',
  computing: 'Parting the inks …',
  noPreview: 'The preview could not be fetched. It comes by itself with the next change.',
  away: 'Take this artwork out of the shop',
  another: 'All artwork',
  lead: (films: number, sheets: number): string =>
    `${count(films)} ${films === 1 ? 'film' : 'films'}, ${small(count(sheets))} ${sheets === 1 ? 'sheet' : 'sheets'}. `,
  holdsAll: 'All of it holds.',
  holdsBut: (places: number): string =>
    places === 1
      ? 'All of it holds but one tone.'
      : `All of it holds but ${small(count(places))} tones.`,
  tooFine: 'These dots are too fine for this fabric: no tone is safe.',
  lines: 'Flat colours, no dots: thin lines are judged on the finished film.',
  noFabric: 'Choose the fabric, to be told what it holds.',
  sentence: {
    print: 'Parted into ',
    wide: ' wide, ',
    dpi: ' pixels per inch; on ',
    fabric: ' fabric with ',
    at: ' at ',
    ruling: ' lines per cm',
    edges: '; edges ',
    by: ' by ',
    under: '; ',
    choked: ', choked by ',
    stock: '; printed on ',
    sheets: '. The films lie on ',
    marks: ', ',
  },
  labels: {
    mode: 'How the artwork is parted',
    width: 'Width of the print',
    dpi: 'Pixels per inch of the film',
    fabric: 'Fabric of the screens',
    dots: 'Dots',
    ruling: 'Lines per cm',
    grain: 'Size of scattered dots',
    edge: 'Edges',
    edgeBy: 'How far edges move',
    under: 'White under all inks',
    underBy: 'How far the white stays back',
    stock: 'What it is printed on',
    sheets: 'Sheets that films are printed on',
    marks: 'Marks round the artwork',
  },
  modes: {
    spot: 'tones of the inks below',
    line: 'flat colours',
    process: 'cyan, magenta, yellow and black',
    single: 'one ink',
  } satisfies Readonly<Record<Mode, string>>,
  dots: {
    round: 'round dots',
    elliptical: 'elliptical dots',
    line: 'lines',
    stochastic: 'scattered dots',
    none: 'no dots',
  } satisfies Readonly<Record<DotKind, string>>,
  edges: { stay: 'as they are', spread: 'spread', choke: 'choked' } satisfies Readonly<
    Record<EdgeWay, string>
  >,
  under: { no: 'no white under all', yes: 'white under all' },
  marks: { all: 'with all marks', none: 'without marks' },
  openFabric: 'a fabric',
  noFigure: 'This must be a number, like 18.',
  ofOwn: 'as in its plan',
  inks: 'Inks, in the order of printing',
  ink: (place: number, name: string): string => `${place}  ${large(name)}`,
  coverage: (percent: string): string => `${percent} of the sheet`,
  inkSays: {
    dots: (kind: string, ruling: string, angle: string): string =>
      `${large(kind)}, ${ruling} lines per cm, turned ${angle}°.`,
    grain: (um: string): string => `Scattered dots of ${um} mm.`,
    flat: 'No dots: edges as they are drawn.',
    under: 'Under all other inks.',
    tones: (least: string, most: string): string => ` Tones from ${least} to ${most}.`,
    scattered: (least: string, most: string): string =>
      ` Below ${least} and above ${most} scattered dots.`,
  },
  look: (name: string): string => `Look at ${name} through the loupe`,
  change: (name: string): string => `Change ${name}`,
  anInk: 'Another ink',
  addInk: 'Add an ink',
  inkIs: 'Its ink',
  angle: 'Angle of its dots in degrees',
  angleIs: 'Its dots are turned by ',
  degrees: '°',
  earlier: 'Print it one earlier',
  out: 'Take this ink out',
  allTones: 'Print all of its tones',
  table: (films: string): string =>
    `Light table. ${films} Take a film by its edge and roll it back: the proof lies under it.`,
  takeEdge: 'Take a film by its edge and roll it back: the proof lies under it.',
  roll: (name: string): string => `Film of ${name}`,
  rolled: (percent: string): string => `covers the left ${percent} of the print`,
  rollAll: 'Roll all films back: the proof',
  layAll: 'Lay all films down',
  loupe: (name: string, place: string): string =>
    `Loupe on ${name}, ${place}. Arrows move it by 1 mm, with Shift by 10.`,
  place: (x: string, y: string): string => `${x} from the left, ${y} from the top`,
  loupeShows: (mm: string, name: string): string => `in the loupe: ${mm} of ${name} on the fabric`,
  findings: 'Where to look',
  fills: (name: string, dot: string, share: string): string =>
    `${large(name)}, palest: dots under ${dot} would fill in, on ${share} of the sheet.`,
  begin: (percent: string): string => ` Let it begin at ${percent}.`,
  falls: (name: string, island: string, share: string): string =>
    `${large(name)}, fullest: islands under ${island} would fall off, on ${share} of the sheet.`,
  end: (percent: string): string => ` Let it end at ${percent}.`,
  beginAct: (name: string, percent: string): string => `Begin ${name} at ${percent}`,
  endAct: (name: string, percent: string): string => `End ${name} at ${percent}`,
  scatterAll: (least: string, most: string): string =>
    `Scatter the dots of all inks below ${least} and above ${most}`,
  moire: {
    'none to be seen': 'Moiré: none to be seen.',
    faint: 'Moiré: faint.',
    strong: 'Moiré: strong.',
    noDots: 'Moiré: none, without regular dots.',
  },
  beat: (name: string, period: string, dots: string): string =>
    `The strongest beat of dots and threads, in ${name}, is ${period} wide; from dot to dot it is ${dots}.`,
  beatZero: (name: string): string =>
    `In ${name} dots and threads keep step: what is seen changes with every stretch of the fabric.`,
  atArm: 'at true size: look at it from arm’s length',
  turnAct: (name: string, angle: string): string => `Turn ${name} to ${angle}°`,
  turnRuleAct: (name: string, angle: string, ruling: string): string =>
    `Turn ${name} to ${angle}°, with ${ruling} lines per cm for all`,
  size: (width: string, height: string): string => `${width} by ${height} each`,
  sizeMarks: (width: string, height: string): string =>
    `${width} by ${height} each, with their marks`,
  trueSize:
    'True size, read from above the glass. Print at 100 %, all black, and measure the scale bar with a ruler.',
  parted: (sheets: number): string =>
    `Each is parted on ${sheets} sheets that overlap by 10 mm; lay them by their marks.`,
  make: 'Make the films',
  makeAgain: 'Make the films again',
  waiting: 'The films wait for their turn.',
  making: (words: string, percent: string): string => `${large(words)}: ${percent} done.`,
  stop: 'Stop',
  stopped: 'Stopped. Nothing was made.',
  made: 'Made',
  earlierPlan: 'These films are of an earlier plan.',
  pdf: 'PDF',
  tiff: 'TIFF',
  proof: 'The proof as a picture',
  planFile: 'Copy the plan',
  intoShop: 'Will it hold? Bring it into the shop',
  intoLayer: (short: string): string => `Will it hold? Make it the film of ${short}`,
  inShop: 'Will it hold?',
  demo: 'Demo: an invented drawing.',
  ticket: 'Ticket',
  noTicket: 'no ticket',
  onTicket: 'It is for ',
} as const
