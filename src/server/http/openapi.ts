import { z } from 'zod'
import { runSheetPaper } from '../../api/bench.ts'
import { stripPaper, wallPaper } from '../../api/papers.ts'
import {
  artworkProofPath,
  artworkProofPdfPath,
  artworkTilePath,
  editionCardPath,
  evidencePath,
  gradePicturePath,
  hazardLabelPath,
  jobTicketPath,
  madeFilmPath,
  mixingCardPath,
  PATHS,
  photoPicturePath,
  signPicturePath,
  tilePath,
} from '../../api/paths.ts'
import { matPaper } from '../../api/photos.ts'
import { placePaper } from '../../api/place.ts'
import { writingAsked } from '../../api/printPlan.ts'
import { labelsQuestion } from '../../api/register.ts'
import { refusal } from '../../api/shop.ts'
import { testsQuestion } from '../../api/tests.ts'
import type { Route } from './route.ts'

type Json = Readonly<Record<string, unknown>>

/** The contract as an OpenAPI document, made of the very schemas the routes read by. */
export function openapiDocument(routes: readonly Route[]): Json {
  const paths: Record<string, Record<string, unknown>> = {}
  for (const { words } of routes) {
    paths[words.path] = { ...paths[words.path], [words.method]: operation(words) }
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'Yellowroom',
      version: '1',
      description:
        'What a shop’s Yellowroom answers. Doses are in the counts of the unit that is asked about. ' +
        'Commands send the token of the shop’s server.json as “Authorization: Bearer …”.',
    },
    paths: {
      ...paths,
      ...FILES,
      [TILE_PATH]: { get: TILE_OPERATION },
      [PATHS.openapi]: { get: ITSELF },
    },
    components: {
      securitySchemes: { token: { type: 'http', scheme: 'bearer' } },
      schemas: { refusal: schemaOf(refusal) },
    },
    security: [{}, { token: [] }],
  }
}

function operation(words: Route['words']): Json {
  const { summary, query, body, answer, status = 200 } = words
  const parameters = [...pathParameters(words.path), ...queryParameters(query)]
  const content = body === 'file' ? { 'application/octet-stream': {} } : jsonContent(body)
  const good =
    answer === null
      ? { 204: { description: 'Done.' } }
      : { [status]: { description: 'The answer.', content: jsonContent(answer) } }
  return {
    summary,
    ...(parameters.length === 0 ? {} : { parameters }),
    ...(body === undefined ? {} : { requestBody: { required: true, content } }),
    responses: { ...good, default: REFUSED },
  }
}

const REFUSED: Json = {
  description: 'Refused, in one sentence: what, where, what to do.',
  content: { 'application/json': { schema: { $ref: '#/components/schemas/refusal' } } },
}

/** `z.core.$strip` and the like never reach a reader: plain JSON schema, what is sent. */
function schemaOf(schema: z.ZodType, io: 'input' | 'output' = 'output'): Json {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io, unrepresentable: 'any' })
  return rest
}

function jsonContent(schema: z.ZodType | undefined): Json {
  return schema === undefined ? {} : { 'application/json': { schema: schemaOf(schema, 'input') } }
}

function pathParameters(path: string): readonly Json[] {
  return [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }))
}

function queryParameters(query: z.ZodType | undefined): readonly Json[] {
  if (query === undefined) return []
  const { properties = {}, required = [] } = schemaOf(query) as {
    properties?: Readonly<Record<string, Json>>
    required?: readonly string[]
  }
  return Object.entries(properties).map(([name, schema]) => ({
    name,
    in: 'query',
    required: required.includes(name),
    schema,
  }))
}

/** Where a tile stands, as a pattern. */
export const TILE_PATH: string = tilePath('FORECAST', { level: 1, x: 2, y: 3 })
  .replace('FORECAST', '{forecast}')
  .replace('/1/2/3', '/{level}/{x}/{y}')

const TILE_OPERATION: Json = {
  summary:
    'one tile of a forecast’s pyramid: planes of bytes, deflated (zlib), as the contract’s pyramid says',
  parameters: pathParameters(TILE_PATH),
  responses: {
    200: { description: 'The tile.', content: { 'application/octet-stream': {} } },
    204: { description: 'Clear film all over.' },
    default: REFUSED,
  },
}

const ITSELF: Json = {
  summary: 'this document',
  responses: { 200: { description: 'OpenAPI 3.1.', content: { 'application/json': {} } } },
}

const pictureAt = (which: Parameters<typeof photoPicturePath>[1]): string =>
  photoPicturePath('PHOTO', which).replace('PHOTO', '{photo}')
const TILE = { level: 1, x: 2, y: 3 } as const
const ARTWORK_TILE_PATH = artworkTilePath('ARTWORK', TILE)
  .replace('ARTWORK', '{artwork}')
  .replace('/1/2/3', '/{level}/{x}/{y}')
const PROOF_PATH = artworkProofPath('ARTWORK').replace('ARTWORK', '{artwork}')
const PROOF_PDF_PATH = artworkProofPdfPath('ARTWORK').replace('ARTWORK', '{artwork}')
const madePath = (file: 'pdf' | 'tif'): string =>
  madeFilmPath('ARTWORK', { film: 'FILM', file })
    .replace('ARTWORK', '{artwork}')
    .replace('FILM', '{film}')
const SIGN_PATH = signPicturePath('SIGN').replace('SIGN', '{sign}')
const GRADE_PATH = gradePicturePath('GRADE').replace('GRADE', '{grade}')

/** What comes as a file. */
const FILES: Json = {
  [PATHS.stripPdf]: file('application/pdf', {
    summary: 'the film of a test strip as its design says, a page of true size',
    query: stripPaper,
  }),
  [PATHS.stripTiff]: file('image/tiff', {
    summary: 'the same film as bits, for a film printer',
    query: stripPaper,
  }),
  [PATHS.wallChart]: file('application/pdf', {
    summary: 'the doses of all media as a sheet for the wall',
    query: wallPaper,
  }),
  [PATHS.runSheet]: file('application/pdf', {
    summary: 'the steps of one exposure on A5, with boxes for a pencil',
    query: runSheetPaper,
  }),
  [GRADE_PATH]: file('image/png', {
    summary: 'what a grade looks like against the light, on this fabric',
    path: GRADE_PATH,
    query: testsQuestion,
  }),
  [SIGN_PATH]: file('image/png', {
    summary: 'what a sign of a failed screen looks like against the light, drawn by the forecast',
    path: SIGN_PATH,
    query: testsQuestion,
  }),
  [ARTWORK_TILE_PATH]: file('application/octet-stream', {
    summary: 'one tile of an artwork’s samples: bytes, deflated, as the contract’s pyramid says',
    path: ARTWORK_TILE_PATH,
  }),
  [PROOF_PATH]: file('image/png', {
    summary: 'the films of an artwork laid over one another, as the print may look',
    path: PROOF_PATH,
  }),
  [PROOF_PDF_PATH]: file('application/pdf', {
    summary: 'the same on a page of true size',
    path: PROOF_PDF_PATH,
  }),
  [madePath('pdf')]: file('application/pdf', {
    summary: 'a made film as a page of true size',
    path: madePath('pdf'),
  }),
  [madePath('tif')]: file('image/tiff', {
    summary: 'a made film as bits, for a film printer',
    path: madePath('tif'),
  }),
  [PATHS.mat]: file('application/pdf', {
    summary: 'the reading mat, to be printed at its true size and cut out',
    query: matPaper,
  }),
  [pictureAt('preview.jpg')]: file('image/jpeg', {
    summary: 'a photo, upright and made small',
    path: pictureAt('preview.jpg'),
  }),
  [pictureAt('straightened.png')]: file('image/png', {
    summary: 'what was read in a photo, straightened: the film, or the screen laid over its film',
    path: pictureAt('straightened.png'),
  }),
  [pictureAt('film.png')]: file('image/png', {
    summary: 'the film that a screen is checked against, as large as the straightened photo',
    path: pictureAt('film.png'),
  }),
  [pictureAt('spotting-list.pdf')]: file('application/pdf', {
    summary: 'the places that a photo of a screen showed, numbered on the film at true size',
    path: pictureAt('spotting-list.pdf'),
  }),
  [PATHS.filmQueuePdf]: file('application/pdf', {
    summary: 'who waits for which film, on paper, with lines for a pencil',
    path: PATHS.filmQueuePdf,
    query: writingAsked,
  }),
  [jobTicketPath('TICKET').replace('TICKET', '{ticket}')]: file('application/pdf', {
    summary: 'a ticket on paper: its layers with boxes to tick, and a code that leads to its page',
    path: jobTicketPath('TICKET').replace('TICKET', '{ticket}'),
  }),
  [editionCardPath('TICKET').replace('TICKET', '{ticket}')]: file('application/pdf', {
    summary: 'an edition on paper: its prints, paper, inks, tallies, archive copy and signatures',
    path: editionCardPath('TICKET').replace('TICKET', '{ticket}'),
  }),
  [mixingCardPath('TICKET').replace('TICKET', '{ticket}')]: file('application/pdf', {
    summary: 'a ticket’s print plan on paper, with a mixing card for each layer',
    path: mixingCardPath('TICKET').replace('TICKET', '{ticket}'),
  }),
  [PATHS.placePlan]: file('application/pdf', {
    summary: 'films on a screen as a small plan with its dimensions',
    query: placePaper,
  }),
  [PATHS.placeTemplate]: file('application/pdf', {
    summary: 'the same at true size, on sheets to be taped together',
    query: placePaper,
  }),
  [PATHS.screenLabels]: file('application/pdf', {
    summary: 'labels for screens; each code leads to its screen’s page',
    query: labelsQuestion,
  }),
  [evidencePath('PERSON', 'pdf').replace('PERSON', '{person}')]: file('application/pdf', {
    summary: 'all that the shop knows of somebody’s work, on paper',
    path: evidencePath('PERSON', 'pdf').replace('PERSON', '{person}'),
  }),
  [hazardLabelPath('THING').replace('THING', '{thing}')]: file('application/pdf', {
    summary: 'a label for what was decanted, with the shop’s own hazard text',
    path: hazardLabelPath('THING').replace('THING', '{thing}'),
  }),
  [PATHS.handover]: file('application/pdf', {
    summary:
      'what the next technician must know, on paper: lamp, batches, screens out, overdue, faults',
  }),
  [PATHS.yearReport]: file('application/pdf', {
    summary: 'a year’s report on paper: what was done, how it came out, why screens failed',
  }),
  [PATHS.exportRecords]: file('application/json', {
    summary: 'every record of the shop, table by table; for those who know the token',
  }),
  [PATHS.exportNotes]: file('text/csv', {
    summary: 'doses and what came of them as a table; for those who know the token',
  }),
  [PATHS.backup]: file('application/x-tar', {
    summary: 'everything the shop has; for those who know the token',
  }),
}

function file(
  type: string,
  { summary, path = '', query }: Readonly<{ summary: string; path?: string; query?: z.ZodType }>,
): Json {
  return {
    get: {
      summary,
      parameters: [...pathParameters(path), ...queryParameters(query)],
      responses: { 200: { description: 'The file.', content: { [type]: {} } }, default: REFUSED },
    },
  }
}
