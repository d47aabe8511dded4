import type { FilmPage } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { rectanglePath } from '../../formats/pagePath.ts'
import { type PlanWriting, weightText } from '../printPlanNumbers.ts'
import type { PlanLine } from '../printPlanWords.ts'
import { dayWords } from './dayWords.ts'
import {
  type Block,
  FLOW_LEFT_MM,
  FLOW_WIDTH_MM,
  flowPages,
  gap,
  type PaperAbout,
  paragraph,
  rule,
  together,
} from './editionFlow.ts'
import { line } from './lines.ts'
import { filledBox } from './shapes.ts'

export type PlanPaperLayer = Readonly<{
  place: number
  shortName: string
  line: PlanLine
  /** What is weighed into one pot, the heaviest first; null: no recipe. */
  parts: readonly Readonly<{ name: string; grams: number }>[] | null
}>

export type PlanOnPaper = Readonly<{
  lines: readonly PlanLine[]
  layers: readonly PlanPaperLayer[]
  about: Omit<PaperAbout, 'what' | 'about'>
  /** As 2026-11-09. */
  date: string
  units: Units
}>

type Units = PlanWriting['units']

const ROW_MM = 8
const BOX_MM = 4.6
const CAUTION =
  'Gloves and eye protection for inks and cleaners; read their safety data sheets first. Dry rags and prints away from heat.'

/**
 * The print plan for the press: its sentences with what they rest on, and for each layer a mixing
 * card with the weights as a scale shows them that is not set back. A4, upright.
 *
 * @throws RangeError where the date cannot be
 */
export function printPlanPages(
  { lines, layers, about, date, units }: PlanOnPaper,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const blocks: readonly Block[] = [
    ...lines.map(({ says, why }) =>
      together([
        paragraph(letters, says, { face: 'bold', sizeMm: 4.2, afterMm: 0.6 }),
        ...why.map((reason) =>
          paragraph(letters, reason, { sizeMm: 3.7, indentMm: 4, afterMm: 0.4 }),
        ),
        gap(2),
      ]),
    ),
    ...layers.flatMap((layer) => layerBlocks(layer, { letters, units })),
    together([rule(), paragraph(letters, CAUTION, { sizeMm: 3.9 })]),
  ]
  const paperAbout = {
    ...about,
    what: 'Print plan',
    about: `Print plan ${about.code ?? ''}, ${dayWords(date)}`,
  }
  return flowPages(blocks, { about: paperAbout, letters })
}

/** The weights stand first: they are what is looked at with ink on one's hands. */
function layerBlocks(
  { place, shortName, line: plan, parts }: PlanPaperLayer,
  { letters, units }: Readonly<{ letters: Letters; units: Units }>,
): readonly Block[] {
  const [first, ...others] = plan.why.map((reason) =>
    paragraph(letters, reason, { sizeMm: 3.7, indentMm: 4, afterMm: 0.4 }),
  )
  return [
    together([
      rule(),
      paragraph(letters, `${place}  ${shortName}  ${plan.says}`, {
        face: 'bold',
        sizeMm: 4.6,
        afterMm: 1.5,
      }),
      ...(parts === null ? [] : [mixing(parts, { letters, shortName, units }), gap(2)]),
      ...(first === undefined ? [] : [first]),
    ]),
    ...others,
    gap(2.5),
  ]
}

/** A box for a pencil, the ink, its weight, and what the scale then shows. */
function mixing(
  parts: NonNullable<PlanPaperLayer['parts']>,
  { letters, shortName, units }: Readonly<{ letters: Letters; shortName: string; units: Units }>,
): Block {
  const left = FLOW_LEFT_MM + 4
  const right = FLOW_LEFT_MM + FLOW_WIDTH_MM
  const weight = left + 105
  const text = { face: 'plain', sizeMm: 4.2 } as const
  const small = { face: 'plain', sizeMm: 3.7 } as const
  return {
    heightMm: (parts.length + 1) * ROW_MM,
    items: (topMm) => [
      ...line(letters, `${shortName}, set the scale to 0 with the pot on it`, {
        ...small,
        xMm: left,
        yMm: topMm + 5,
      }),
      ...line(letters, 'weigh', { ...small, xMm: weight, yMm: topMm + 5, anchor: 'end' }),
      ...line(letters, 'the scale shows', { ...small, xMm: right, yMm: topMm + 5, anchor: 'end' }),
      ...parts.flatMap(({ name, grams }, at) => {
        const top = topMm + (at + 1) * ROW_MM
        const shows = parts.slice(0, at + 1).reduce((sum, part) => sum + Math.round(part.grams), 0)
        const box = { xMm: left, yMm: top + 1.4, widthMm: BOX_MM, heightMm: BOX_MM }
        return [
          filledBox({ xMm: left, yMm: top - 0.6, widthMm: right - left, heightMm: 0.15 }),
          { kind: 'stroke', widthMm: 0.35, path: rectanglePath(box) } as const,
          ...line(letters, name, { ...text, xMm: left + BOX_MM + 3, yMm: top + 5.2 }),
          ...line(letters, weightText(Math.round(grams), units), {
            ...text,
            xMm: weight,
            yMm: top + 5.2,
            anchor: 'end',
          }),
          ...line(letters, weightText(shows, units), {
            ...text,
            face: 'bold',
            xMm: right,
            yMm: top + 5.2,
            anchor: 'end',
          }),
        ]
      }),
    ],
  }
}
