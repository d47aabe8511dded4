import type { Artwork, ArtworkList, PrintsKnown } from './artwork.ts'
import type { Run, RunList, StepList } from './bench.ts'
import type { Clocks } from './clocks.ts'
import type { Day } from './day.ts'
import type { Trouble, TroubleTable } from './diagnosis.ts'
import type { FilmQueue } from './filmQueue.ts'
import type { Film, FilmForecast, FilmList } from './films.ts'
import type { BucketAdded, ByMeter, Evenness, Lamp } from './lamp.ts'
import type { FirstDose, LightAnswer } from './light.ts'
import type { Cards, ClassTold, MayI, Me, People } from './people.ts'
import type { Photo } from './photos.ts'
import type { GlassTold, Place, PlaceCheck, PlacementKept, ScreensOnGlass } from './place.ts'
import type { PrintPlanTold, Stock } from './printPlan.ts'
import type { Coated, FeltDry, ReclaimList, Register, ScreenPage } from './register.ts'
import type { ScreenChoice } from './screenChoice.ts'
import type { Choices, Health, Shop } from './shop.ts'
import type {
  Accepted,
  GradePictures,
  NotesRead,
  ReadingList,
  ReadingTaken,
  TestDesign,
  Tests,
} from './tests.ts'
import type { Things } from './things.ts'
import type { Ticket, TicketList } from './tickets.ts'
import type { ShopCheck, ShopSetup } from './upkeep.ts'

declare const answers: unique symbol
/** A path that knows what comes back from it, by method. At run time it is its text. */
export type Path<Answers> = string & { readonly [answers]: Answers }

/** Every path of the HTTP contract, in one place for the server, the pages and the commands. */
export const PATHS = {
  health: '/api/health' as Path<{ GET: Health }>,
  shop: '/api/shop' as Path<{ GET: Shop }>,
  demoShop: '/api/shop/demo' as Path<{ POST: Shop }>,
  ownShop: '/api/shop/own' as Path<{ POST: Shop }>,
  firstDose: '/api/first-dose' as Path<{ POST: FirstDose }>,
  choices: '/api/choices' as Path<{ GET: Choices }>,
  light: '/api/light' as Path<{ GET: LightAnswer }>,
  films: '/api/films' as Path<{ GET: FilmList; POST: Film }>,
  photos: '/api/photos' as Path<{ POST: Photo }>,
  artworks: '/api/artworks' as Path<{ GET: ArtworkList; POST: Artwork }>,
  toneCurves: '/api/tone-curves' as Path<{ POST: PrintsKnown }>,
  inkLimit: '/api/ink-limit' as Path<{ POST: PrintsKnown }>,
  tickets: '/api/tickets' as Path<{ GET: TicketList; POST: Ticket }>,
  /** Inks and papers on the shelf. */
  stock: '/api/stock' as Path<{ GET: Stock; POST: Stock }>,
  /** Screens with their tags. */
  register: '/api/register' as Path<{ GET: Register }>,
  screens: '/api/register/screens' as Path<{ POST: Register }>,
  coatings: '/api/register/coatings' as Path<{ POST: Coated }>,
  feltDry: '/api/register/felt-dry' as Path<{ POST: FeltDry }>,
  reclaim: '/api/register/reclaim' as Path<{ GET: ReclaimList }>,
  screenLabels: '/api/register/labels.pdf',
  /** Films on a screen, screens on a glass, and what is on it. */
  place: '/api/place' as Path<{ GET: Place; POST: PlacementKept }>,
  placeCheck: '/api/place/check' as Path<{ POST: PlaceCheck }>,
  placeScreens: '/api/place/screens' as Path<{ GET: ScreensOnGlass }>,
  glassMarks: '/api/place/glass-marks' as Path<{ POST: GlassTold }>,
  /** On paper: PDF, with the places of the films. */
  placePlan: '/api/place/plan.pdf',
  placeTemplate: '/api/place/template.pdf',
  screenChoice: '/api/screen-choice' as Path<{ GET: ScreenChoice }>,
  filmQueue: '/api/film-queue' as Path<{ GET: FilmQueue; POST: FilmQueue }>,
  filmQueuePdf: '/api/film-queue.pdf',
  me: '/api/me' as Path<{ GET: Me }>,
  /** Whether who asks was shown what an act takes. */
  mayI: '/api/me/may' as Path<{ GET: MayI }>,
  signIn: '/api/me/sign-in' as Path<{ POST: Me }>,
  signOut: '/api/me/sign-out' as Path<{ POST: null }>,
  people: '/api/people' as Path<{ GET: People; POST: People }>,
  classList: '/api/people/class' as Path<{ POST: ClassTold }>,
  cards: '/api/people/cards' as Path<{ POST: Cards }>,
  endOfTerm: '/api/people/end-of-term' as Path<{ POST: People }>,
  /** A whole class is shown something; what has to be shown first. */
  classSignOff: '/api/people/class-sign-off' as Path<{ POST: People }>,
  shownFirst: '/api/people/shown-first' as Path<{ POST: People }>,
  /** Exposures step by step, and the lists of their steps. */
  runs: '/api/bench/runs' as Path<{ GET: RunList; POST: Run }>,
  stepLists: '/api/bench/lists' as Path<{ POST: StepList }>,
  /** Clocks that follow whoever started them. */
  clocks: '/api/clocks' as Path<{ GET: Clocks; POST: Clocks }>,
  /** One exposure's steps on paper: PDF. */
  runSheet: '/api/bench/run-sheet.pdf',
  /** The plan of a class. */
  day: '/api/day' as Path<{ GET: Day; POST: Day }>,
  /** What stands in the room, and what went wrong there. */
  things: '/api/things' as Path<{ GET: Things; POST: Things }>,
  /** What the next technician must know, and the year: PDF. */
  handover: '/api/things/handover.pdf',
  yearReport: '/api/things/year.pdf',
  incidents: '/api/incidents' as Path<{ POST: Things }>,
  /** Why screens fail. */
  trouble: '/api/trouble' as Path<{ GET: Trouble; POST: Trouble }>,
  troubleTable: '/api/trouble/table' as Path<{ GET: TroubleTable; POST: TroubleTable }>,
  /** The printable reading mat: PDF. */
  mat: '/api/mat.pdf',
  openapi: '/api/openapi.json',
  setup: '/api/setup' as Path<{ GET: ShopSetup }>,
  check: '/api/check' as Path<{ GET: ShopCheck }>,
  /** For commands alone: they know the token. */
  backup: '/api/backup',
  exportRecords: '/api/export.json',
  exportNotes: '/api/export.csv',
  tests: '/api/tests' as Path<{ GET: Tests }>,
  readings: '/api/tests/readings' as Path<{ GET: ReadingList; POST: ReadingTaken }>,
  reference: '/api/tests/reference' as Path<{ POST: Accepted }>,
  testDesign: '/api/tests/design' as Path<{ GET: TestDesign }>,
  /** Papers: PDF, with the questions of the design or of the tests and `paper`. */
  stripPdf: '/api/tests/strip.pdf',
  stripTiff: '/api/tests/strip.tif',
  wallChart: '/api/tests/wall-chart.pdf',
  grades: '/api/tests/grades' as Path<{ GET: GradePictures }>,
  lamp: '/api/tests/lamp' as Path<{ GET: Lamp }>,
  lampTimings: '/api/tests/lamp/timings' as Path<{ POST: Lamp }>,
  newLamp: '/api/tests/lamp/new' as Path<{ POST: Lamp }>,
  meter: '/api/tests/lamp/meter' as Path<{ POST: ByMeter }>,
  meterReference: '/api/tests/lamp/meter/reference' as Path<{ POST: Lamp }>,
  buckets: '/api/tests/buckets' as Path<{ POST: BucketAdded }>,
  evenness: '/api/tests/evenness' as Path<{ GET: Evenness; POST: Evenness }>,
  notes: '/api/tests/notes' as Path<{ POST: NotesRead }>,
} as const

export const filmPath = (film: string): Path<{ GET: Film; PATCH: Film; DELETE: null }> =>
  `${PATHS.films}/${encodeURIComponent(film)}` as Path<{ GET: Film; PATCH: Film; DELETE: null }>
export const filmForecastPath = (film: string): Path<{ GET: FilmForecast }> =>
  `${filmPath(film)}/forecast` as Path<{ GET: FilmForecast }>
export const ticketPath = (ticket: string): Path<{ GET: Ticket }> =>
  `${PATHS.tickets}/${encodeURIComponent(ticket)}` as Path<{ GET: Ticket }>
/** The ticket on paper: PDF. */
export const jobTicketPath = (ticket: string): string => `${ticketPath(ticket)}/job-ticket.pdf`
/** What printing a ticket takes; its colour checks; its papers: PDF. */
export const planPath = (ticket: string): Path<{ GET: PrintPlanTold; POST: PrintPlanTold }> =>
  `${ticketPath(ticket)}/plan` as Path<{ GET: PrintPlanTold; POST: PrintPlanTold }>
export const planColourPath = (ticket: string): Path<{ POST: PrintPlanTold }> =>
  `${planPath(ticket)}/colour` as Path<{ POST: PrintPlanTold }>
export const editionCardPath = (ticket: string): string => `${ticketPath(ticket)}/edition-card.pdf`
export const mixingCardPath = (ticket: string): string => `${ticketPath(ticket)}/print-plan.pdf`
export const ticketActsPath = (ticket: string): Path<{ POST: Ticket }> =>
  `${ticketPath(ticket)}/acts` as Path<{ POST: Ticket }>
export const screenPath = (tag: string): Path<{ GET: ScreenPage }> =>
  `${PATHS.screens}/${encodeURIComponent(tag)}` as Path<{ GET: ScreenPage }>
export const screenActsPath = (tag: string): Path<{ POST: ScreenPage }> =>
  `${screenPath(tag)}/acts` as Path<{ POST: ScreenPage }>
export const personActsPath = (person: string): Path<{ POST: People }> =>
  `${PATHS.people}/${encodeURIComponent(person)}/acts` as Path<{ POST: People }>
/** Somebody's work: JSON, and the same on paper. */
export const evidencePath = (person: string, form: 'json' | 'pdf'): string =>
  `${PATHS.people}/${encodeURIComponent(person)}/evidence.${form}`
export const filmQueueActsPath = (film: string): Path<{ POST: FilmQueue }> =>
  `${PATHS.filmQueue}/${encodeURIComponent(film)}/acts` as Path<{ POST: FilmQueue }>
export const runPath = (run: string): Path<{ GET: Run }> =>
  `${PATHS.runs}/${encodeURIComponent(run)}` as Path<{ GET: Run }>
export const stepListPath = (unit: string): Path<{ GET: StepList }> =>
  `${PATHS.stepLists}/${encodeURIComponent(unit)}` as Path<{ GET: StepList }>
export const runEventsPath = (run: string): Path<{ POST: Run }> =>
  `${runPath(run)}/events` as Path<{ POST: Run }>
export const troubleCausePath = (failure: string): Path<{ POST: Trouble }> =>
  `${PATHS.trouble}/${encodeURIComponent(failure)}/cause` as Path<{ POST: Trouble }>
/** What a sign looks like against the light: PNG. */
export const signPicturePath = (sign: string): string =>
  `${PATHS.trouble}/signs/${encodeURIComponent(sign)}.png`
export const troubleRowPath = (row: string): Path<{ DELETE: TroubleTable }> =>
  `${PATHS.troubleTable}/${encodeURIComponent(row)}` as Path<{ DELETE: TroubleTable }>
export const thingPath = (thing: string): Path<{ POST: Things; DELETE: Things }> =>
  `${PATHS.things}/${encodeURIComponent(thing)}` as Path<{ POST: Things; DELETE: Things }>
/** What was decanted, with the shop's own hazard text: PDF. */
export const hazardLabelPath = (thing: string): string => `${thingPath(thing)}/label.pdf`
export const dayEventsPath = (plan: string): Path<{ POST: Day }> =>
  `${PATHS.day}/${encodeURIComponent(plan)}/events` as Path<{ POST: Day }>
export const dayEndPath = (plan: string): Path<{ POST: Day }> =>
  `${PATHS.day}/${encodeURIComponent(plan)}/end` as Path<{ POST: Day }>
export const tilePath = (
  forecast: string,
  { level, x, y }: Readonly<{ level: number; x: number; y: number }>,
): string => `/api/forecasts/${encodeURIComponent(forecast)}/tiles/${level}/${x}/${y}`
export const strikePath = (reading: string): Path<{ POST: ReadingTaken }> =>
  `${PATHS.readings}/${encodeURIComponent(reading)}/strike` as Path<{ POST: ReadingTaken }>
export const gradePicturePath = (grade: string): string =>
  `${PATHS.grades}/${encodeURIComponent(grade)}.png`
export const photoPath = (photo: string): Path<{ GET: Photo; DELETE: null }> =>
  `${PATHS.photos}/${encodeURIComponent(photo)}` as Path<{ GET: Photo; DELETE: null }>
/** Begins to read it, or ends that. */
export const photoAskPath = (photo: string): Path<{ POST: Photo; DELETE: Photo }> =>
  `${photoPath(photo)}/ask` as Path<{ POST: Photo; DELETE: Photo }>
export const photoFilmPath = (photo: string): Path<{ POST: Film }> =>
  `${photoPath(photo)}/film` as Path<{ POST: Film }>
/** The photo made small, the straightened one, the film it is checked against, what to spot out. */
export const photoPicturePath = (
  photo: string,
  which: 'preview.jpg' | 'straightened.png' | 'film.png' | 'spotting-list.pdf',
): string => `${photoPath(photo)}/${which}`
export const artworkPath = (
  artwork: string,
): Path<{ GET: Artwork; PATCH: Artwork; DELETE: null }> =>
  `${PATHS.artworks}/${encodeURIComponent(artwork)}` as Path<{
    GET: Artwork
    PATCH: Artwork
    DELETE: null
  }>
/** Begins to make its films, or ends that. */
export const toneCurvePath = (curve: string): Path<{ DELETE: PrintsKnown }> =>
  `${PATHS.toneCurves}/${encodeURIComponent(curve)}` as Path<{ DELETE: PrintsKnown }>
export const artworkFilmsPath = (artwork: string): Path<{ POST: Artwork; DELETE: Artwork }> =>
  `${artworkPath(artwork)}/films` as Path<{ POST: Artwork; DELETE: Artwork }>
export const artworkTilePath = (
  artwork: string,
  { level, x, y }: Readonly<{ level: 0 | 1; x: number; y: number }>,
): string => `${artworkPath(artwork)}/samples/${level}/${x}/${y}`
/** At true size. */
export const artworkProofPdfPath = (artwork: string): string => `${artworkPath(artwork)}/proof.pdf`
export const artworkProofPath = (artwork: string): string => `${artworkPath(artwork)}/proof.png`
export const madeFilmPath = (
  artwork: string,
  { film, file }: Readonly<{ film: string; file: 'pdf' | 'tif' }>,
): string => `${artworkFilmsPath(artwork)}/${encodeURIComponent(film)}.${file}`
/** It becomes a film of the shop. */
export const madeShopFilmPath = (artwork: string, film: string): Path<{ POST: Film }> =>
  `${artworkFilmsPath(artwork)}/${encodeURIComponent(film)}/film` as Path<{ POST: Film }>
export const glassMarkPath = (mark: string): Path<{ DELETE: GlassTold }> =>
  `${PATHS.glassMarks}/${encodeURIComponent(mark)}` as Path<{ DELETE: GlassTold }>
