import { type Placement, placeFilms } from '../../core/placement/place.ts'
import { FORCE_SWITCH, type Option, type Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns } from '../figures.ts'
import { path } from '../reads.ts'
import { readTextFile } from '../textFile.ts'

const MOST_BYTES = 1_000_000

const PLACEMENT: Place<string> = {
  name: 'P.json',
  about: 'frame, films, clearance and keepOut as JSON, lengths in mm',
  needed: true,
  reads: path({ what: 'placement', shown: 'P.json' }),
}
const PICTURE: Option<string> = {
  name: 'picture',
  about: 'draw the plan at true scale, with its dimensions, as SVG',
  needed: false,
  reads: path({ what: 'picture', shown: 'OUT.svg' }),
}

export const place: Command = {
  name: 'place',
  summary: 'where films lie best on a screen, and by how much they miss where they do not fit',
  places: [PLACEMENT],
  options: [PICTURE, FORCE_SWITCH],
  notes: [
    'A placement has "frame" {insideWidthMm, insideHeightMm}, "films" [{name, widthMm, heightMm, turn}], "clearance" {frameMm, betweenMm}, 150 each unless given, and "keepOut" [{xMm, yMm, widthMm, heightMm}], like docs/example/placement.json.',
    'Places count from the inside top left of the frame, as printed. "turn" is "fixed" or "quarter". The gap between two films is the shortest way between them; no film lies in a keepOut. A film may say its "marks" {xMm, yMm, widthMm, heightMm} from the top left of its sheet: then clearances count from them, and the sheet only stays inside the frame; or, closer, their "outline": parts, each a list of places [x, y], that count by their hulls. Where not all arrangements could be tried the answer says "proved": false.',
  ],
  example: {
    line: 'place docs/example/placement.json',
    prints: [
      'The films fit.',
      'boat   200 mm from the left, 163.4 mm from the top',
      'pears  275 mm from the left, 686.7 mm from the top',
      'Closest: clearance to the frame.',
    ].join('\n'),
  },
  run: async (given) => {
    const file = given.needs(PLACEMENT)
    const out = given.of(PICTURE)
    const overwriting = { force: given.has(FORCE_SWITCH), inputs: [file] }
    const { refuseExisting, writeWhole } = await import('../../decode/files.ts')
    if (out !== undefined) await refuseExisting(out, overwriting)
    const text = await readTextFile(file, {
      what: 'placement',
      field: PLACEMENT.name,
      mostBytes: MOST_BYTES,
    })
    const { placementFromJson } = await import('../../workflow/placementPlan.ts')
    const problem = placementFromJson(text)
    const placement = placeFilms(problem)
    if (out !== undefined) {
      const { placementDrawing } = await import('../../workflow/papers/placementDrawing.ts')
      const drawing = new TextEncoder().encode(placementDrawing(problem, placement))
      await writeWhole(out, overwriting, (sink) => sink.write(drawing))
    }
    const record = { kind: 'placement', ...placement }
    return { record, text: placementText(placement) }
  },
}

function placementText({ verdict, films, worst, smallestFrame, proved }: Placement): string {
  const rows = films.map(({ name, xMm, yMm, turned }): readonly [string, string] => [
    name,
    `${mm(xMm)} from the left, ${mm(yMm)} from the top${turned ? ', turned' : ''}`,
  ])
  const { insideWidthMm, insideHeightMm } = smallestFrame
  const better = proved ? '' : ' Not all arrangements were tried: a better one may be there.'
  if (verdict === 'fits') {
    return ['The films fit.', columns(rows), `Closest: ${worst.rule}.${better}`].join('\n')
  }
  return [
    `The films do not fit: the ${worst.rule} is ${mm(worst.shortMm)} short at best.${better}`,
    columns(rows),
    `A frame of ${mm(insideWidthMm)} by ${mm(insideHeightMm)} inside would do.`,
  ].join('\n')
}

/** Rounded up, as a frame that is a little larger does as well. */
function mm(value: number): string {
  return `${Number((Math.ceil(value * 10 - 1e-4) / 10).toFixed(1))} mm`
}
