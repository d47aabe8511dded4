import type { Inspection, ScreenFault } from '../../api/photos.ts'

type Verdict = Inspection['verdict']

const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine']

/** A count as a word where there is one. */
function counted(count: number): string {
  return NUMBERS[count] ?? String(count)
}

const FAULTS: Readonly<Record<ScreenFault, Readonly<{ one: string; many: string; act: string }>>> =
  {
    blocked: { one: 'Still shut', many: 'places still shut', act: 'Soft spray, both sides.' },
    veil: {
      one: 'A thin skin',
      many: 'thin skins',
      act: 'Soft spray, both sides, then look again.',
    },
    pinhole: { one: 'A pinhole', many: 'pinholes', act: 'Dry first, then spot with filler.' },
    scratch: { one: 'A scratch', many: 'scratches', act: 'Dry first, then spot with filler.' },
    'broken edge': {
      one: 'A broken edge',
      many: 'broken edges',
      act: 'It will print ragged there.',
    },
    'missing area': {
      one: 'A piece is missing',
      many: 'pieces are missing',
      act: 'It would print where the film is clear.',
    },
  }

/** What the Check page says, in English. Numbers come in already written for people. */
export const CHECK_WORDS = {
  title: 'Is it open?',
  intro:
    'Hold the washed-out screen against the light, the squeegee side to you, and photograph it from straight on with all of the picture in it. It is compared with its film.',
  with: 'It was exposed with',
  film: 'Film of this screen',
  whichFilm: 'which film',
  filmFirst: 'Say first which film it was exposed with.',
  noFilms: 'No film is here to compare with.',
  filmsRead: (ready: number, all: number): string =>
    `Films are being read: ${ready} of ${all} can be compared with so far.`,
  toFilm: 'Bring a film',
  fetchingFilms: 'Fetching the films …',
  cautionLamp:
    'Against a window or a light table, never the exposure unit: do not look into its lamp.',
  cautionWater: 'Let the screen drip off, and dry your hands before you touch a lamp or a plug.',
  comparing: 'Laying the photo over the film …',
  fetching: 'Fetching the photo …',
  again: 'Take another photo',
  byHand: 'Show where the film’s corners lie',
  looks: { screen: 'screen', film: 'film', both: 'one over the other' },
  looksLabel: 'What the picture shows',
  straightened: 'Your photo, straightened and laid over the film.',
  picture: (look: string, found: string): string => `${look}: ${found}`,
  pictureOf: {
    screen: 'The screen against the light',
    film: 'The film',
    both: 'The film over the screen',
  },
  places: (count: number): string =>
    count === 0 ? 'nothing to look at' : `${counted(count).toLowerCase()} ringed`,
  listLabel: 'Where to look, in the order of the work',
  fault: (kind: ScreenFault, count: number): string =>
    count === 1 ? FAULTS[kind].one : `${counted(count)} ${FAULTS[kind].many}`,
  faultAct: (kind: ScreenFault): string => FAULTS[kind].act,
  from: (low: string, high: string): string =>
    low === high ? `${low} wide.` : `${low} to ${high} wide.`,
  pairFilm: (mm: string): string => `film, ${mm}`,
  pairScreen: 'screen',
  pairSays: (kind: string, at: number, of: number): string => `${kind}, place ${at} of ${of}`,
  earlier: 'Place before',
  later: 'Next place',
  placeOf: (at: number, of: number): string => `${at} of ${of}`,
  cannot: (mm: string): string =>
    `Faults under ${mm} do not show in this photo; a closer one would find them.`,
  rightWay: 'It reads as the film does.',
  mirrored: 'The photo shows it mirrored.',
  verdicts: {
    good: 'The photo shows it open, as you drew it.',
    'wash more': 'Not yet: the photo shows places that are still shut.',
    'spot it': 'The photo shows it open, with places to spot out.',
    'make again': 'The photo shows more amiss than filler can mend.',
  } satisfies Record<Verdict, string>,
  acts: {
    good: 'Print it',
    'wash more': 'Back to the sink',
    'spot it': 'Spot it',
    'make again': 'Make it again',
  } satisfies Record<Verdict, string>,
  sink: [
    'Wash the ringed places with a soft spray, from both sides, until they look as clear as the rest.',
    'Not harder: what is soft still lifts. Then hold it against the light and take another photo.',
    'Do not splash lamps or plugs.',
  ],
  spot: [
    'Let it dry through first: filler holds only on a dry screen.',
    'Lay it down with the print side up, dab filler on the ringed places with a small brush, and let that dry too.',
    'Look once more against the light before you print.',
  ],
  print: [
    'Let it dry through, then look once more against the light.',
    'Tape the edges, and keep what the film and the screen told below.',
  ],
  list: 'Fetch the spotting list (PDF)',
  asItIs: 'Print it as it is',
  tell: 'Write down how it came out',
  tellWhy: 'It goes into what the shop believes of its doses, once you say yes.',
  itCame: 'Exposed at',
  onCounter: 'on the counter',
  on: ', on',
  screen: 'On which screen',
  someScreen: 'some screen',
  under: ', under',
  lamp: 'Under which lamp',
  came: ', it came out',
  dose: 'Dose as it was set',
  doseOpen: 'a dose',
  doseWrong: 'The dose must be a number on the counter, like 42.',
  grade: 'How it came out',
  gradeOpen: 'how?',
  takeDown: 'Take it down',
  taken: 'Taken down',
  note: 'Seen in a photo of the screen.',
} as const
