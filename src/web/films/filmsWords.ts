import type { Mode } from '../../core/separation/plan.ts'
import type { DotKind, EdgeWay } from './planFile.ts'
import type { OwnEdge, PrintWay } from './planInks.ts'

const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine']
const count = (of: number): string => NUMBERS[of] ?? String(of)
const small = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1)
export const large = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

/** A share for people: 13 %, and below two of a hundred with a decimal. */
export function percentText(share: number): string {
  const percent = 100 * share
  return `${Number(percent.toFixed(percent < 2 ? 1 : 0))} %`
}

const listed = (names: readonly string[]): string =>
  [names.slice(0, -1).join(', '), names.at(-1)].join(' and ')

/** What the page of films to print says, in English. Numbers come in already written for people. */
export const FILMS_WORDS = {
  title: 'Films to print',
  list: {
    intro:
      'Bring the artwork as a file: a picture or a drawing. It is parted into inks, and each becomes a film at its true size.',
    drop: 'Drop the artwork here',
    choose: 'Choose a file',
    takes: 'PNG, JPEG, TIFF, WebP, SVG, PDF or OpenRaster',
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
  noPreview: 'The preview could not be fetched. It is tried again by itself.',
  away: 'Take this artwork out of the shop',
  another: 'All artwork',
  lead: (films: number, sheets: number): string =>
    `${count(films)} ${films === 1 ? 'film' : 'films'}, ${small(count(sheets))} ${sheets === 1 ? 'sheet' : 'sheets'}. `,
  holdsAll: 'All of it holds.',
  holdsBut: (places: number): string =>
    places === 1
      ? 'All of it holds but one tone.'
      : `All of it holds but ${small(count(places))} tones.`,
  empty: (names: readonly string[]): string =>
    names.length === 1
      ? `The film of ${names[0]} stays empty.`
      : `The films of ${listed(names)} stay empty.`,
  emptyAll: 'There is nothing to print: what was brought is paper all over.',
  tooFine: 'These dots are too fine for this fabric: no tone is safe.',
  lines: 'Without dots thin lines are judged on the finished film.',
  noFabric: 'Choose the fabric, to be told what it holds.',
  sentence: {
    print: 'Parted into ',
    wide: ' wide, on ',
    fabric: ' fabric',
    dots: ' with ',
    at: ' at ',
    ruling: ' lines per cm',
    by: ' by ',
    under: '; ',
    choked: ', choked by ',
    stock: '; printed on ',
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
  more: {
    unfold: 'Change edges, white, sheets or marks',
    fold: 'Fold this away',
    by: (mm: string): string => ` by ${mm} mm`,
    choked: (mm: string): string => `, choked by ${mm} mm`,
    toldEdges: (edges: string, under: string): string => `Edges ${edges}, ${under}`,
    toldSheets: (sheets: string, dpi: string): string => `${sheets} at ${dpi} pixels per inch`,
    nested: ', side by side',
    toldCoverage: (percent: string): string => `${percent} % of ink at one place at most`,
    toldLimits: (inks: string, percent: string): string =>
      `at one place ${inks} inks and ${percent} % of ink at most`,
    dpi: 'The films have ',
    dpiEnd: ' pixels per inch, ',
    edges: 'Edges ',
    trap: 'The loupe on the print shows where inks meet.',
    sheets: 'They lie on ',
    of: ' of ',
    times: ' by ',
    sheetWidth: 'Width of the sheet in mm',
    sheetHeight: 'Height of the sheet in mm',
    nestLabel: 'Small films on one sheet',
    nest: { alone: 'each film by itself', nest: 'small films side by side' },
    overlap: '; parts overlap by ',
    overlapLabel: 'Overlap of parts in mm',
    cutLabel: 'Lines to cut at',
    cut: { no: 'without lines to cut at', yes: 'with lines to cut at' },
    limits: 'At one place at most ',
    limitInks: 'Most inks at one place',
    limitsAnd: ' inks, and together ',
    limitCoverage: 'Most ink at one place, in percent',
    limitsEnd: ' % of ink (one solid is 100 %): more does not dry before the next screen.',
  },
  own: {
    called: ', called ',
    name: 'Name of this ink',
    coloured: ', coloured ',
    colour: (name: string): string => `Colour of ${name} as printed solid on white`,
    hides: '; it hides ',
    hidesLabel: 'How much of what lies under it a solid hides, in percent',
    hidesEnd: ' % of what lies under it.',
    merge: 'Pour it into ',
    mergeLabel: (name: string): string => `Print what is ${name} in another ink`,
    mergeOpen: 'another ink',
    edges: 'Its edges ',
    edgesLabel: (name: string): string => `Edges of ${name}`,
    edgeWays: {
      all: 'move as those of all inks',
      stay: 'stay as they are',
      spread: 'spread',
      choke: 'are choked',
    } satisfies Readonly<Record<OwnEdge, string>>,
    prints: 'Its tints print ',
    printsLabel: (name: string): string => `What tints of ${name} print as`,
    printWays: {
      same: 'as they are on the film',
      shop: 'as this shop measured them',
      usual: 'fuller, as is usual',
      measured: 'as measured on this print',
    } satisfies Readonly<Record<PrintWay, string>>,
    tint: (film: number, isFirst: boolean): string => `${isFirst ? ': ' : ', '}${film} % as `,
    tintLabel: (film: number): string => `What a tint of ${film} % was measured to print as`,
    tintEnd: ' %. The films are made lighter by that.',
    printsAll: 'The same for all inks',
    highlights: 'It is printed where the artwork is lighter than ',
    highlightsLabel: 'Lightness from which highlights are printed, in percent',
    highlightsEnd: ' % and not white: white is the bare stock.',
  },
  which: {
    ask: 'Which inks?',
    most: 'With ',
    mostLabel: 'Most inks to print',
    mostEnd: ' inks at most, of those in this shop, the palest first:',
    looking: 'Trying the inks on the artwork …',
    differs: (mean: string, worst: string): string => `: differs by ${mean}, at worst by ${worst}.`,
    worth: ' One more brings the print hardly nearer.',
    take: (inks: number): string => (inks === 1 ? 'Take this one' : `Take these ${inks}`),
    own: 'Or its own flat colours, to be named, merged and coloured as you like. (A difference under 2 is hard to see; 5 is plain.)',
    takeOwn: (inks: number): string =>
      inks === 1 ? 'Part it into one flat colour' : `Part it into ${inks} flat colours`,
  },
  addHighlights: 'Add white for highlights',
  loupeView: 'What the loupe shows',
  loupeViews: { stencil: 'the stencil on the fabric', print: 'the print, ink on ink' },
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
  emptyMade: 'empty: nothing was dark enough to print',
  inkSays: {
    dots: (kind: string, ruling: string, angle: string): string =>
      `${large(kind)}, ${ruling} lines per cm, turned ${angle}°.`,
    grain: (um: string): string => `Scattered dots of ${um} mm.`,
    flat: 'No dots: edges as they are drawn.',
    half: 'No dots: what is darker than half prints solid, the rest not at all.',
    empty: (hasDots: boolean): string =>
      hasDots
        ? 'Nothing of it is dark enough for a dot: its film stays empty.'
        : 'Nothing of it is dark enough to print: its film stays empty.',
    under: 'Under all other inks.',
    tones: (least: string, most: string): string => ` Tones from ${least} to ${most}.`,
    highlights: (from: string): string =>
      `Highlights: where the artwork is lighter than ${from} and not white.`,
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
  loupeShows: (mm: string, name: string): string => `in the loupe: ${mm} of ${name}, `,
  findings: 'Where to look',
  moreFindings: (places: number): string =>
    places === 1 ? 'One smaller place' : `${count(places)} smaller places`,
  fewerFindings: 'Only the largest',
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
    `Each is parted on ${sheets} sheets that overlap; lay them by their marks.`,
  nestedOn: (sheets: number): string =>
    `They lie side by side on ${sheets === 1 ? 'one sheet' : `${sheets} sheets`}; cut them apart.`,
  tooLargeToNest:
    'One film does not lie on this sheet: choose a larger one, or each film by itself.',
  nestedPdf: 'All films side by side, as a PDF',
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
  demo: 'in the demo shop',
  ticket: 'Ticket',
  noTicket: 'no ticket',
  onTicket: 'It is for ',
} as const
