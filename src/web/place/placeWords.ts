import { type Place, STILL_READ } from '../../api/place.ts'
import type { Rule } from '../../core/placement/check.ts'
import type { Move } from './placeState.ts'

/** What the page of placements says. */
export const PLACE_WORDS = {
  title: 'Where to lay it',
  fetching: 'Looking for the best place …',
  lead: {
    onScreen: ' on screen ',
    under: ' under ',
    and: ' and ',
    aFilm: 'a film',
    another: 'another film',
    film: (at: number): string => `Film ${at}`,
    noScreen: 'a screen',
    screen: 'Screen',
    unit: 'Lamp',
    takeOff: (name: string): string => `Take ${name} off`,
  },
  none: 'Choose a film and a screen, and the drawing shows where the film lies best.',
  noneScreen: 'Choose a screen, and the drawing shows where the film lies best.',
  offers: {
    screens: 'On which screen?',
    noScreens: 'No frame of this shop has a tag yet.',
    tags: 'Give tags to frames',
    waiting: 'Films that wait for a place',
    none: 'No film waits: bring one, or choose one above that was exposed before.',
    loose: 'On no ticket',
    together: (count: number): string => `Lay all ${count} on one screen`,
    on: (screen: string): string => `on ${screen}`,
    bring: 'Bring a film',
    laid: 'As screens were laid last',
    screen: (name: string): string => `Screen ${name}`,
  },
  waiting: (name: string, why: string): string =>
    `${name} ${why === STILL_READ ? why : `could not be read: ${why}`}`,
  fits: 'It fits: every rule is kept.',
  fitsBadly: 'As it lies here it breaks a rule:',
  noFit: (rule: string, short: string): string =>
    `It does not fit. At best the ${rule} is ${short} short.`,
  smallest: (across: string, down: string, isMarked: boolean): string =>
    isMarked
      ? `A frame of ${across} by ${down} inside or larger would do, laid clear of what is on the glass.`
      : `A frame of ${across} by ${down} inside would do, or the next larger one that you have.`,
  notProved: 'Not every arrangement was tried: a better one may be there.',
  moveNow: 'Move it from where it lies:',
  moveNamed: (name: string): string => `Move ${name} from where it lies:`,
  moveBest: 'The best place is from here:',
  there: 'It lies there: nothing to move.',
  ways: {
    left: 'to the left',
    right: 'to the right',
    away: 'away from you',
    toward: 'towards you',
    turn: 'Turn it by a quarter',
  } satisfies Readonly<Record<Move['way'], string>>,
  rules: {
    'clearance to the frame': 'Drawing to the frame, at the closest',
    'clearance between films': 'From drawing to drawing',
    'keep-out': 'Drawing to what is on the glass',
    'sheet inside the frame': 'Sheet to the frame',
  } satisfies Readonly<Record<Rule, string>>,
  brief: {
    'clearance to the frame': 'clearance to the frame',
    'clearance between films': 'clearance between films',
    'keep-out': 'way to what is on the glass',
    'sheet inside the frame': 'way from the sheet to the frame',
  } satisfies Readonly<Record<Rule, string>>,
  wanted: (asked: string): string => `${asked} wanted`,
  short: (mm: string): string => `${mm} short`,
  into: 'lies on it',
  light: 'Light across the drawing',
  lightShare: (least: string, most: string): string => `${least} to ${most} %`,
  reading: 'Shown the way the print will be',
  rightReading: 'right-reading',
  centre: 'Off the middle',
  inMiddle: 'in the middle',
  kept: (on: string): string => `So it was laid on ${on}.`,
  planned: (on: string): string => `So it was planned on ${on}.`,
  lies: 'It lies there now',
  keepPlan: 'Keep it as planned',
  isKept: 'Kept.',
  trueSize: 'Print it true size',
  plan: 'The plan on paper',
  paper: 'Paper',
  papers: { a4: 'A4', letter: 'Letter' },
  turn: 'Turn it',
  best: 'Lay it best',
  elsewhere: 'It lies elsewhere',
  asKept: 'As it was kept',
  fromLeft: 'From the left',
  fromBack: 'From the back',
  fields: (name: string, isNow: boolean): string =>
    isNow ? `Where the sheet of ${name} lies now` : `Where the sheet of ${name} is to lie`,
  fieldWrong: 'Write a length, like 145.',
  clearances: 'Clearances',
  frameMm: 'To the frame',
  betweenMm: 'Between films',
  clearanceWhy:
    'About 150 mm is common practice: a stretched fabric must give way to the squeegee.',
  clearanceWrong: 'Write a length from 0 up, like 150.',
  caution: 'Caution: the lid is heavy. Hold it until it rests, hands off the edge.',
  handling: 'Arrow keys move the film by 1 mm, with Shift by 10.',
  screenName: (name: string, across: string, down: string): string =>
    `screen ${name}, inside ${across} by ${down}`,
  towardsYou: 'this side towards you',
  evenness: 'dotted: how evenly the lamp lights',
  nowHere: 'where it lies now',
  drawing: (screen: string): string =>
    `Screen ${screen} seen from above the glass, as the print will read.`,
  film: (name: string, left: string, back: string): string =>
    `${name}: ${left} from the left, ${back} from the back.`,
  filmNow: (name: string, left: string, back: string): string =>
    `Where ${name} lies now: ${left} from the left, ${back} from the back.`,
  onGlass: {
    title: 'Something on the glass',
    lead: 'A scratch, a chip or a stain: measure its box from the back left corner of the glass.',
    what: 'What it is',
    whatExample: 'scratch',
    x: 'From the left',
    y: 'From the back',
    width: 'Wide',
    height: 'Deep',
    act: 'Keep clear of it',
    gone: (what: string): string => `The ${what} is gone`,
    wrong: 'Write lengths in whole or decimal numbers, like 640.',
    noGlass: 'Nobody told how large this glass is. It is told where the light on it is measured:',
    measure: 'How even is the light?',
  },
  screens: {
    title: 'Several screens on the glass',
    lead: 'Screens that are exposed at once:',
    another: 'another screen',
    screen: (at: number): string => `Screen ${at} on the glass`,
    fits: 'They lie side by side on the glass.',
    noFit: (short: string): string =>
      `They do not all fit on the glass: ${short} short at best. Expose them one after another.`,
    drawing: 'The glass from above, with the screens on it.',
    front: 'front of the glass',
    moved: 'They keep clear of each other, and none hangs over.',
    over: (mm: string): string => `One hangs ${mm} over the edge of the glass.`,
    onEachOther: (mm: string): string => `Two lie ${mm} on each other.`,
    handling: 'Drag a screen, or step it by arrow keys: 1 mm, with Shift 10.',
    screenOn: (name: string, left: string, back: string): string =>
      `Screen ${name}: ${left} from the left edge of the glass, ${back} from its back.`,
    lay: (name: string): string => `Reckon with screen ${name} there`,
    usual: 'Outsides are reckoned with bars of 40 mm where nobody measured them.',
    place: (name: string, left: string, back: string, turned: boolean): string =>
      `Screen ${name}: ${left} from the left edge of the glass, ${back} from its back${turned ? ', turned by a quarter' : ''}.`,
  },
} as const

/** What a film is called here: its layer’s short name, as on its papers, and its own. */
export function filmName({ name, layer }: Pick<Place['films'][number], 'name' | 'layer'>): string {
  return layer === null ? name : `${layer}, ${name}`
}

/** A loose film is drawn in black. */
export const BLACK_INK: NonNullable<Place['films'][number]['ink']> = {
  id: '',
  name: 'black',
  lab: [12, 0, 0],
  opacity: 1,
}
