import type { StationName } from '../../core/ticket/road.ts'
import { listed } from '../../workflow/printPlanNumbers.ts'

const count = (sheets: number): string => NUMBERS[sheets] ?? String(sheets)
const NUMBERS: readonly string[] = ['none', 'one', 'two', 'three', 'four', 'five', 'six']
const proofsOf = (proofs: number): string => `${proofs} ${proofs === 1 ? 'proof' : 'proofs'}`
const artistProofsOf = (proofs: number): string =>
  `${proofs} artist’s ${proofs === 1 ? 'proof' : 'proofs'}`
const ink = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1)

/** What the pages of tickets say. */
export const TICKET_WORDS = {
  list: {
    title: 'What next?',
    none: 'A ticket takes one print from its artwork to its edition: its layers, films, screens and sheets.',
    fetching: 'Fetching the tickets …',
    open: 'Open',
    closed: 'Closed',
    next: (name: string, station: string): string => `Next: ${name}, ${station}`,
    allDone: 'All layers are done: close the edition',
    closedOn: (day: string): string => `closed ${day}`,
  },
  fresh: {
    open: 'Open a ticket',
    lead: 'Name the print, and choose its inks in the order of printing.',
    name: 'The print is called',
    example: 'Night ferry',
    ink: 'Ink',
    anInk: 'choose an ink',
    another: 'another ink',
    whose: 'Whose',
    nobody: 'nobody’s yet',
    paper: 'Paper',
    whichPaper: 'Paper of the shelf',
    noPaper: 'not chosen yet',
    otherPaper: 'another paper',
    paperExample: 'cream cartridge, 250 g',
    edition: 'Prints wanted',
    editionWrong: 'Write how many prints are wanted, like 20.',
    nameMissing: 'Write what the print is called.',
    inkMissing: 'Choose at least one ink, and name each that is new.',
    newInk: 'a new ink',
    inkName: (place: number): string => `Name of ink ${place}`,
    inkExample: 'leaf green',
    inkColour: (place: number): string => `Its colour on paper (ink ${place})`,
    act: 'Open the ticket',
    leave: 'Leave it',
  },
  fetching: 'Fetching the ticket …',
  whose: (owner: string): string => `${owner}’s`,
  nobodys: 'Nobody’s yet',
  layers: (layers: number): string => `${count(layers)} ${layers === 1 ? 'layer' : 'layers'}`,
  code: (code: string): string => `ticket ${code}`,
  next: 'Next: ',
  nextIs: (name: string): string => `${name}.`,
  doneAll: 'All layers are printed, and their screens reclaimed.',
  closed: (day: string): string => `Closed ${day}.`,
  shouldLook: 'how it should look',
  notPrinted: (names: readonly string[]): string =>
    names.length === 0 ? '' : `, ${listed(names)} not printed yet`,
  noFilms: 'The print is drawn here from its films, in their inks, as soon as a layer has one.',
  reading: (names: readonly string[]): string =>
    `Being read: the film of ${listed(names)}. It is drawn here as soon as that is done.`,
  picture: (name: string, layers: readonly string[]): string =>
    `${name}, drawn from the films of ${listed(layers)} in their inks.`,
  layer: (place: number, name: string): string => `${place}  ${ink(name)}`,
  stations: {
    artwork: 'Artwork',
    film: 'Film',
    screen: 'Screen',
    light: 'Light',
    water: 'Water',
    print: 'Print',
    reclaim: 'Reclaim',
  } satisfies Readonly<Record<StationName, string>>,
  finished: 'finished',
  road: (states: readonly string[]): string => states.join(', '),
  /** What the next thing is, as its act. */
  acts: {
    artwork: (name: string): string => `Bring the film of ${name}`,
    film: (name: string): string => `Look at ${name}’s film`,
    screen: (name: string): string => `${ink(name)}’s screen is coated and dry`,
    light: (name: string): string => `Take ${name} to the light`,
    water: (name: string): string => `Is ${name}’s screen open?`,
    print: () => 'One more pulled',
    reclaim: (name: string): string => `${ink(name)}’s screen is reclaimed`,
  } satisfies Readonly<Record<StationName, (name: string) => string>>,
  chooseFor: (name: string): string => `Choose a screen for ${name}`,
  itIsAFile: 'The artwork is a file: films to print',
  /** That a station is done, where the act leads elsewhere. */
  doneThere: {
    artwork: 'The artwork is done',
    film: 'The film is done',
    screen: 'The screen is coated and dry',
    light: 'It is exposed',
    water: 'It is open and dry',
    print: 'All of it is printed',
    reclaim: 'It is reclaimed',
  } satisfies Readonly<Record<StationName, string>>,
  caution: {
    light: 'Do not look at the lamp. Close the lid before it lights.',
    water: 'Keep water away from sockets and lamps; eye protection under a pressure washer.',
    print: null,
    reclaim: 'Gloves and eye protection. Read the remover’s safety data sheet first.',
  } as Readonly<Partial<Record<StationName, string | null>>>,
  itsFilm: 'Its film is ',
  noFilm: 'not here yet',
  toPlace: 'where to lay it',
  change: (name: string): string => `Change ${name}`,
  back: 'It goes back to ',
  backTo: 'a station',
  why: 'Why',
  whyExample: 'the ground came off',
  backAct: 'Send it back',
  whyMissing: 'Write why, in a few words.',
  pulled: (sheets: number): string => `${sheets} pulled`,
  spoils: (spoils: readonly Readonly<{ sheets: number; why: string }>[]): string =>
    spoils.map(({ sheets, why }) => `${count(sheets)} spoiled: ${why}`).join('; '),
  fiveMore: 'Five more',
  spoiled: 'One is spoiled',
  spoiledWhy: 'What spoiled it',
  spoiledExample: 'a crease',
  spoiledAct: 'Take it out',
  paper: 'paper',
  onPaper: 'Job ticket on paper',
  log: 'Edition log',
  logAll: (entries: number): string => `All ${entries} entries`,
  logNone: 'Nothing was told yet.',
  takeBack: 'That was a mistake',
  logBy: (says: string, by: string): string => `${says}, told by ${by}`,
  about: {
    open: 'Change the ticket',
    keep: 'Keep it so',
    layerLead: 'A layer more, after the others:',
    addLayer: 'Add the layer',
  },
  given: {
    says: (
      {
        numbered,
        artistProofs,
        proofs,
        signed,
        left,
      }: Readonly<{
        numbered: number
        artistProofs: number
        proofs: number
        signed: number
        left: number
      }>,
      good: number,
    ): string =>
      [
        `${good} came through`,
        ...(numbered === 0 ? [] : [`${numbered} numbered`]),
        ...(artistProofs === 0 ? [] : [artistProofsOf(artistProofs)]),
        ...(proofs === 0 ? [] : [proofsOf(proofs)]),
        ...(signed === 0 ? [] : [`${signed} signed`]),
        left < 0
          ? `${-left} given out too many: take some back in the log.`
          : left === 0
            ? 'none left.'
            : `${left} not given out yet.`,
      ].join(', '),
    oneMore: {
      numbered: 'One numbered',
      'artist proof': 'One artist’s proof',
      proof: 'One proof',
      signed: 'One signed',
    },
    rest: (left: number): string => `Number all ${left}`,
    sign: 'Note signatures',
    signed: 'Signed now',
    signedWrong: 'Write how many were signed, like 20.',
    by: 'Signed by',
    signAct: 'They are signed',
  },
  close: 'Close the edition',
  openAgain: 'Open it again',
  numbered: 'Numbered prints',
  artistProofs: 'Artist’s proofs',
  proofs: 'Proofs',
  archive: 'One stays in',
  archiveExample: 'drawer 3',
  signed: 'Signed by',
  closeLead: (good: number): string => `${good} sheets came through the last layer.`,
  closeAct: 'Close it',
  closeWrong: 'Write a whole number, 0 or more.',
  card: ({
    numbered,
    artistProofs,
    proofs,
  }: Readonly<{ numbered: number; artistProofs: number; proofs: number }>): string =>
    `Edition of ${[String(numbered), artistProofsOf(artistProofs), proofsOf(proofs)].join(', ')}.`,
  archived: (place: string): string => `One stays in ${place}.`,
  signedBy: (name: string): string => `Signed by ${name}.`,
} as const
