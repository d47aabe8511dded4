/** From who did not sign in to the shop's lead: each may what those before may. */
export const ROLES = ['nobody', 'guest', 'printer', 'technician', 'lead'] as const

export type Role = (typeof ROLES)[number]

/** Whether somebody of a role may what is let to another and all above it. */
export function may(role: Role, least: Role): boolean {
  return ROLES.indexOf(role) >= ROLES.indexOf(least)
}

/** Who at least may ask a route; one that the table does not know is for leads. */
export function leastRole(route: string): Role {
  return ROLE_TABLE[route] ?? 'lead'
}

/**
 * Every route of the API, by method and path as the server has them, and who at least may ask it once
 * the shop is closed. A guest looks, a printer works, a technician keeps the room, a lead decides.
 */
export const ROLE_TABLE: Readonly<Record<string, Role>> = {
  // the door itself
  'GET /api/health': 'nobody',
  'GET /api/shop': 'nobody',
  'GET /api/openapi.json': 'nobody',
  'GET /api/me': 'nobody',
  'POST /api/me/sign-in': 'nobody',
  'POST /api/me/sign-out': 'nobody',
  'POST /api/shop/demo': 'lead',
  'POST /api/shop/own': 'lead',

  // Light and films
  'POST /api/first-dose': 'guest',
  'GET /api/choices': 'guest',
  'GET /api/light': 'guest',
  'GET /api/films': 'guest',
  'POST /api/films': 'printer',
  'GET /api/films/:film': 'guest',
  'PATCH /api/films/:film': 'printer',
  'DELETE /api/films/:film': 'printer',
  'GET /api/films/:film/forecast': 'guest',
  'GET /api/forecasts/:forecast/tiles/:level/:x/:y': 'guest',
  'GET /api/mat.pdf': 'guest',
  'POST /api/photos': 'printer',
  'GET /api/photos/:photo': 'printer',
  'DELETE /api/photos/:photo': 'printer',
  'POST /api/photos/:photo/ask': 'printer',
  'DELETE /api/photos/:photo/ask': 'printer',
  'POST /api/photos/:photo/film': 'printer',
  'GET /api/photos/:photo/preview.jpg': 'printer',
  'GET /api/photos/:photo/straightened.png': 'printer',
  'GET /api/photos/:photo/film.png': 'printer',
  'GET /api/photos/:photo/spotting-list.pdf': 'printer',

  // artwork
  'GET /api/artworks': 'guest',
  'POST /api/artworks': 'printer',
  'GET /api/artworks/:artwork': 'guest',
  'PATCH /api/artworks/:artwork': 'printer',
  'DELETE /api/artworks/:artwork': 'printer',
  'POST /api/artworks/:artwork/films': 'printer',
  'DELETE /api/artworks/:artwork/films': 'printer',
  'POST /api/artworks/:artwork/films/:film/film': 'printer',
  'POST /api/tone-curves': 'printer',
  'DELETE /api/tone-curves/:curve': 'technician',
  'POST /api/ink-limit': 'technician',
  'GET /api/artworks/:artwork/samples/:level{[01]}/:x{\\d{1,4}}/:y{\\d{1,4}}': 'guest',
  'GET /api/artworks/:artwork/proof.png': 'guest',
  'GET /api/artworks/:artwork/proof.pdf': 'guest',
  'GET /api/artworks/:artwork/films/:film{.+\\.pdf}': 'guest',
  'GET /api/artworks/:artwork/films/:film{.+\\.tif}': 'guest',

  // tests
  'GET /api/tests': 'guest',
  'GET /api/tests/readings': 'guest',
  'POST /api/tests/readings': 'printer',
  'POST /api/tests/readings/:reading/strike': 'technician',
  'POST /api/tests/reference': 'technician',
  'GET /api/tests/design': 'guest',
  'GET /api/tests/lamp': 'guest',
  'POST /api/tests/lamp/timings': 'technician',
  'POST /api/tests/lamp/new': 'technician',
  'POST /api/tests/lamp/meter/reference': 'technician',
  'POST /api/tests/lamp/meter': 'printer',
  'POST /api/tests/buckets': 'technician',
  'GET /api/tests/evenness': 'guest',
  'POST /api/tests/evenness': 'technician',
  'GET /api/tests/grades': 'guest',
  'POST /api/tests/notes': 'technician',
  'GET /api/tests/strip.pdf': 'guest',
  'GET /api/tests/strip.tif': 'guest',
  'GET /api/tests/wall-chart.pdf': 'guest',
  'GET /api/tests/grades/:name{.+\\.png}': 'guest',

  // tickets
  'GET /api/tickets': 'guest',
  'POST /api/tickets': 'printer',
  'GET /api/tickets/:ticket': 'guest',
  'POST /api/tickets/:ticket/acts': 'printer',
  'GET /api/tickets/:ticket/plan': 'guest',
  'POST /api/tickets/:ticket/plan': 'printer',
  'POST /api/tickets/:ticket/plan/colour': 'printer',
  'GET /api/tickets/:ticket/job-ticket.pdf': 'guest',
  'GET /api/tickets/:ticket/edition-card.pdf': 'guest',
  'GET /api/tickets/:ticket/print-plan.pdf': 'guest',
  'GET /api/screen-choice': 'guest',
  'GET /api/film-queue': 'guest',
  'GET /api/film-queue.pdf': 'guest',
  'POST /api/film-queue': 'printer',
  'POST /api/film-queue/:film/acts': 'printer',

  // place and bench
  'GET /api/place': 'guest',
  'POST /api/place': 'printer',
  'POST /api/place/check': 'guest',
  'GET /api/place/screens': 'guest',
  'GET /api/place/plan.pdf': 'guest',
  'GET /api/place/template.pdf': 'guest',
  'POST /api/place/glass-marks': 'technician',
  'DELETE /api/place/glass-marks/:mark': 'technician',
  'GET /api/bench/run-sheet.pdf': 'guest',
  'POST /api/bench/runs': 'printer',
  'GET /api/bench/runs': 'guest',
  'GET /api/bench/runs/:run': 'guest',
  'POST /api/bench/runs/:run/events': 'printer',
  'GET /api/clocks': 'guest',
  'POST /api/clocks': 'printer',
  'GET /api/bench/lists/:unit': 'guest',
  'POST /api/bench/lists': 'technician',

  // the room
  'GET /api/register': 'guest',
  'GET /api/register/screens/:tag': 'guest',
  'POST /api/register/screens': 'technician',
  'POST /api/register/screens/:tag/acts': 'printer',
  'POST /api/register/coatings': 'printer',
  'POST /api/register/felt-dry': 'printer',
  'GET /api/register/reclaim': 'guest',
  'GET /api/register/labels.pdf': 'guest',
  'GET /api/stock': 'guest',
  'POST /api/stock': 'technician',
  'GET /api/things': 'guest',
  'POST /api/things': 'technician',
  'POST /api/things/:thing': 'technician',
  'DELETE /api/things/:thing': 'technician',
  'GET /api/things/handover.pdf': 'technician',
  'GET /api/things/year.pdf': 'technician',
  'GET /api/things/:thing/label.pdf': 'guest',
  'POST /api/incidents': 'printer',
  'GET /api/trouble': 'guest',
  'POST /api/trouble': 'printer',
  'POST /api/trouble/:failure/cause': 'technician',
  'GET /api/trouble/signs/:name{.+\\.png}': 'guest',
  'GET /api/trouble/table': 'guest',
  'POST /api/trouble/table': 'lead',
  'DELETE /api/trouble/table/:row': 'lead',
  'GET /api/day': 'guest',
  'POST /api/day': 'technician',
  'POST /api/day/:plan/events': 'printer',
  'POST /api/day/:plan/end': 'technician',

  // people
  'GET /api/me/may': 'guest',
  'GET /api/people': 'technician',
  'POST /api/people': 'technician',
  'POST /api/people/:person/acts': 'technician',
  'GET /api/people/:person/evidence.json': 'technician',
  'GET /api/people/:person/evidence.pdf': 'technician',
  'POST /api/people/class': 'technician',
  'POST /api/people/cards': 'technician',
  'POST /api/people/class-sign-off': 'technician',
  'POST /api/people/shown-first': 'lead',
  'POST /api/people/end-of-term': 'lead',

  // for commands, which know the shop's token
  'GET /api/setup': 'technician',
  'GET /api/check': 'lead',
  'GET /api/backup': 'lead',
  'GET /api/export.json': 'lead',
  'GET /api/export.csv': 'lead',
}
