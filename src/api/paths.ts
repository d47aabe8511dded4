/** Every path of the HTTP contract, in one place for the server, the pages and the commands. */
export const PATHS = {
  health: '/api/health',
  shop: '/api/shop',
  demoShop: '/api/shop/demo',
  ownShop: '/api/shop/own',
  firstDose: '/api/first-dose',
  choices: '/api/choices',
  light: '/api/light',
  films: '/api/films',
  photos: '/api/photos',
  artworks: '/api/artworks',
  toneCurves: '/api/tone-curves',
  inkLimit: '/api/ink-limit',
  tickets: '/api/tickets',
  /** Inks and papers on the shelf. */
  stock: '/api/stock',
  /** Screens with their tags. */
  register: '/api/register',
  screens: '/api/register/screens',
  coatings: '/api/register/coatings',
  feltDry: '/api/register/felt-dry',
  reclaim: '/api/register/reclaim',
  screenLabels: '/api/register/labels.pdf',
  /** Films on a screen, screens on a glass, and what is on it. */
  place: '/api/place',
  placeCheck: '/api/place/check',
  placeScreens: '/api/place/screens',
  glassMarks: '/api/place/glass-marks',
  /** On paper: PDF, with the places of the films. */
  placePlan: '/api/place/plan.pdf',
  placeTemplate: '/api/place/template.pdf',
  screenChoice: '/api/screen-choice',
  filmQueue: '/api/film-queue',
  filmQueuePdf: '/api/film-queue.pdf',
  me: '/api/me',
  /** Whether who asks was shown what an act takes. */
  mayI: '/api/me/may',
  signIn: '/api/me/sign-in',
  signOut: '/api/me/sign-out',
  people: '/api/people',
  classList: '/api/people/class',
  cards: '/api/people/cards',
  endOfTerm: '/api/people/end-of-term',
  /** A whole class is shown something; what has to be shown first. */
  classSignOff: '/api/people/class-sign-off',
  shownFirst: '/api/people/shown-first',
  /** Exposures step by step, and the lists of their steps. */
  runs: '/api/bench/runs',
  stepLists: '/api/bench/lists',
  /** Clocks that follow whoever started them. */
  clocks: '/api/clocks',
  /** One exposure's steps on paper: PDF. */
  runSheet: '/api/bench/run-sheet.pdf',
  /** The plan of a class. */
  day: '/api/day',
  /** What stands in the room, and what went wrong there. */
  things: '/api/things',
  /** What the next technician must know, and the year: PDF. */
  handover: '/api/things/handover.pdf',
  yearReport: '/api/things/year.pdf',
  incidents: '/api/incidents',
  /** Why screens fail. */
  trouble: '/api/trouble',
  troubleTable: '/api/trouble/table',
  /** The printable reading mat: PDF. */
  mat: '/api/mat.pdf',
  openapi: '/api/openapi.json',
  setup: '/api/setup',
  check: '/api/check',
  /** For commands alone: they know the token. */
  backup: '/api/backup',
  exportRecords: '/api/export.json',
  exportNotes: '/api/export.csv',
  tests: '/api/tests',
  readings: '/api/tests/readings',
  reference: '/api/tests/reference',
  testDesign: '/api/tests/design',
  /** Papers: PDF, with the questions of the design or of the tests and `paper`. */
  stripPdf: '/api/tests/strip.pdf',
  stripTiff: '/api/tests/strip.tif',
  wallChart: '/api/tests/wall-chart.pdf',
  grades: '/api/tests/grades',
  lamp: '/api/tests/lamp',
  lampTimings: '/api/tests/lamp/timings',
  newLamp: '/api/tests/lamp/new',
  meter: '/api/tests/lamp/meter',
  meterReference: '/api/tests/lamp/meter/reference',
  buckets: '/api/tests/buckets',
  evenness: '/api/tests/evenness',
  notes: '/api/tests/notes',
} as const

export const filmPath = (film: string): string => `${PATHS.films}/${encodeURIComponent(film)}`
export const filmForecastPath = (film: string): string => `${filmPath(film)}/forecast`
export const ticketPath = (ticket: string): string =>
  `${PATHS.tickets}/${encodeURIComponent(ticket)}`
/** The ticket on paper: PDF. */
export const jobTicketPath = (ticket: string): string => `${ticketPath(ticket)}/job-ticket.pdf`
/** What printing a ticket takes; its colour checks; its papers: PDF. */
export const planPath = (ticket: string): string => `${ticketPath(ticket)}/plan`
export const planColourPath = (ticket: string): string => `${planPath(ticket)}/colour`
export const editionCardPath = (ticket: string): string => `${ticketPath(ticket)}/edition-card.pdf`
export const mixingCardPath = (ticket: string): string => `${ticketPath(ticket)}/print-plan.pdf`
export const ticketActsPath = (ticket: string): string => `${ticketPath(ticket)}/acts`
export const screenPath = (tag: string): string => `${PATHS.screens}/${encodeURIComponent(tag)}`
export const screenActsPath = (tag: string): string => `${screenPath(tag)}/acts`
export const personActsPath = (person: string): string =>
  `${PATHS.people}/${encodeURIComponent(person)}/acts`
/** Somebody's work: JSON, and the same on paper. */
export const evidencePath = (person: string, form: 'json' | 'pdf'): string =>
  `${PATHS.people}/${encodeURIComponent(person)}/evidence.${form}`
export const filmQueueActsPath = (film: string): string =>
  `${PATHS.filmQueue}/${encodeURIComponent(film)}/acts`
export const runPath = (run: string): string => `${PATHS.runs}/${encodeURIComponent(run)}`
export const runEventsPath = (run: string): string => `${runPath(run)}/events`
export const troubleCausePath = (failure: string): string =>
  `${PATHS.trouble}/${encodeURIComponent(failure)}/cause`
/** What a sign looks like against the light: PNG. */
export const signPicturePath = (sign: string): string =>
  `${PATHS.trouble}/signs/${encodeURIComponent(sign)}.png`
export const troubleRowPath = (row: string): string =>
  `${PATHS.troubleTable}/${encodeURIComponent(row)}`
export const thingPath = (thing: string): string => `${PATHS.things}/${encodeURIComponent(thing)}`
/** What was decanted, with the shop's own hazard text: PDF. */
export const hazardLabelPath = (thing: string): string => `${thingPath(thing)}/label.pdf`
export const dayEventsPath = (plan: string): string =>
  `${PATHS.day}/${encodeURIComponent(plan)}/events`
export const dayEndPath = (plan: string): string => `${PATHS.day}/${encodeURIComponent(plan)}/end`
export const tilePath = (
  forecast: string,
  { level, x, y }: Readonly<{ level: number; x: number; y: number }>,
): string => `/api/forecasts/${encodeURIComponent(forecast)}/tiles/${level}/${x}/${y}`
export const strikePath = (reading: string): string =>
  `${PATHS.readings}/${encodeURIComponent(reading)}/strike`
export const gradePicturePath = (grade: string): string =>
  `${PATHS.grades}/${encodeURIComponent(grade)}.png`
export const photoPath = (photo: string): string => `${PATHS.photos}/${encodeURIComponent(photo)}`
/** Begins to read it, or ends that. */
export const photoAskPath = (photo: string): string => `${photoPath(photo)}/ask`
export const photoFilmPath = (photo: string): string => `${photoPath(photo)}/film`
/** The photo made small, the straightened one, the film it is checked against, what to spot out. */
export const photoPicturePath = (
  photo: string,
  which: 'preview.jpg' | 'straightened.png' | 'film.png' | 'spotting-list.pdf',
): string => `${photoPath(photo)}/${which}`
export const artworkPath = (artwork: string): string =>
  `${PATHS.artworks}/${encodeURIComponent(artwork)}`
/** Begins to make its films, or ends that. */
export const toneCurvePath = (curve: string): string =>
  `${PATHS.toneCurves}/${encodeURIComponent(curve)}`
export const artworkFilmsPath = (artwork: string): string => `${artworkPath(artwork)}/films`
export const artworkTilePath = (
  artwork: string,
  { level, x, y }: Readonly<{ level: 0 | 1; x: number; y: number }>,
): string => `${artworkPath(artwork)}/samples/${level}/${x}/${y}`
export const artworkProofPath = (artwork: string): string => `${artworkPath(artwork)}/proof.png`
export const madeFilmPath = (
  artwork: string,
  { film, file }: Readonly<{ film: string; file: 'pdf' | 'tif' }>,
): string => `${artworkFilmsPath(artwork)}/${encodeURIComponent(film)}.${file}`
/** It becomes a film of the shop. */
export const madeShopFilmPath = (artwork: string, film: string): string =>
  `${artworkFilmsPath(artwork)}/${encodeURIComponent(film)}/film`
export const glassMarkPath = (mark: string): string =>
  `${PATHS.glassMarks}/${encodeURIComponent(mark)}`
