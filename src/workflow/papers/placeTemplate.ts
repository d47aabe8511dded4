import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { linePath, type Place } from '../../formats/pagePath.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot } from './foot.ts'
import { fittingMm, line, wrapped } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { lengthText, placeContent } from './placeContent.ts'
import { type PlacePaper, ruleWords } from './placePlan.ts'
import { cutTo, windowOf } from './placeSheet.ts'
import { OVERLAP_MM, type Tiles, tileName, tilesFor } from './placeTiles.ts'
import { scaleBar } from './scaleBar.ts'
import { type Box, dashed } from './shapes.ts'

const MARGIN = 12
const TEXT = 4.2
const SMALL = 3.7
const GLUE_PEN = 0.2
const CROSS_MM = 5

/**
 * A template of true size: a sheet that says how it is put together, then sheets that overlap, each
 * with a scale bar, dashed edges to cut along, lines to lay them on and crosses across each seam.
 *
 * @throws Failure 'too large' for a screen that would take too many sheets
 */
export function placeTemplatePages(
  paper: PlacePaper,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const { insideWidthMm, insideHeightMm } = paper.problem.frame
  const tiles = tilesFor(
    { widthMm: insideWidthMm, heightMm: insideHeightMm },
    { paper: paper.paper },
  )
  const content = placeContent(paper, { scale: 1 })
  const places = Array.from({ length: tiles.columns * tiles.rows }, (_, at) => ({
    column: at % tiles.columns,
    row: Math.floor(at / tiles.columns),
  }))
  return [
    { ...PAPERS[paper.paper], items: firstSheet(paper, { letters, tiles }) },
    ...places.map((place): FilmPage => {
      const { window, page } = tiles
      const origin = originOf(tiles, place)
      return {
        ...page,
        items: [
          ...windowOf(content, { origin, window, letters }),
          ...seams(tiles, place),
          ...tileFoot(paper, { letters, tiles, place }),
        ],
      }
    }),
  ]
}

type TilePlace = Readonly<{ column: number; row: number }>

/** Where the inside top left of the frame lies on that sheet, or beside it. */
function originOf({ window, step, first }: Tiles, { column, row }: TilePlace): Place {
  return {
    xMm: window.xMm - first.xMm - column * step.xMm,
    yMm: window.yMm - first.yMm - row * step.yMm,
  }
}

/** Where this sheet is cut, where the next ones are laid on it, and crosses over both. */
function seams(
  { window, step, columns, rows }: Tiles,
  { column, row }: TilePlace,
): readonly PageItem[] {
  const { xMm: left, yMm: top, widthMm, heightMm } = window
  const [right, bottom] = [left + widthMm, top + heightMm]
  const items: PageItem[] = []
  const upright = (xMm: number) => [
    { xMm, yMm: top },
    { xMm, yMm: bottom },
  ]
  const level = (yMm: number) => [
    { xMm: left, yMm },
    { xMm: right, yMm },
  ]
  const thin = (path: readonly Place[]): PageItem => ({
    kind: 'stroke',
    widthMm: GLUE_PEN,
    path: linePath(path),
  })
  const crossed = (middle: Place): void => {
    for (const [x, y] of [
      [CROSS_MM, 0],
      [0, CROSS_MM],
    ] as const) {
      const arm = cutTo(
        {
          from: { xMm: middle.xMm - x, yMm: middle.yMm - y },
          to: { xMm: middle.xMm + x, yMm: middle.yMm + y },
        },
        window,
      )
      if (arm !== null) items.push(thin(arm))
    }
  }
  const [across, down] = [
    [0.2, 0.8].map((share) => left + share * widthMm),
    [0.2, 0.8].map((share) => top + share * heightMm),
  ]
  if (column > 0) {
    items.push(dashed(upright(left)))
    for (const yMm of down) crossed({ xMm: left, yMm })
  }
  if (row > 0) {
    items.push(dashed(level(top)))
    for (const xMm of across) crossed({ xMm, yMm: top })
  }
  if (column + 1 < columns) {
    items.push(thin(upright(left + step.xMm)))
    for (const yMm of down) crossed({ xMm: left + step.xMm, yMm })
  }
  if (row + 1 < rows) {
    items.push(thin(level(top + step.yMm)))
    for (const xMm of across) crossed({ xMm, yMm: top + step.yMm })
  }
  return items
}

function tileFoot(
  { screen, shop, date }: PlacePaper,
  { letters, tiles, place }: Readonly<{ letters: Letters; tiles: Tiles; place: TilePlace }>,
): readonly PageItem[] {
  const { window, columns, rows } = tiles
  const top = window.yMm + window.heightMm + 3
  const right = window.xMm + window.widthMm
  const left = window.xMm + 116
  const words = [
    `column ${place.column + 1} of ${columns}, row ${place.row + 1} of ${rows}`,
    `Screen ${screen}, ${dayWords(date)}`,
    shop.demo ? `Demo shop: ${shop.name}, invented` : shop.name,
  ]
  const name = tileName(place)
  const nameMm = letters.widthMm(name, { face: 'title', sizeMm: 11 }) + 3
  const plain = { face: 'plain', sizeMm: SMALL } as const
  const sizeMm = fittingMm(letters, words, { ...plain, widthMm: right - left - nameMm })
  return [
    ...scaleBar({ xMm: window.xMm + 1, yMm: top }, { letters, sizeMm: SMALL }),
    ...line(letters, name, { face: 'title', sizeMm: 11, xMm: left, yMm: top + 9.5 }),
    ...words.flatMap((text, at) =>
      line(letters, text, { face: 'plain', sizeMm, xMm: left + nameMm, yMm: top + 2.6 + at * 4.4 }),
    ),
  ]
}

/** How it is put together, with a picture of the sheets in their places. */
function firstSheet(
  paper: PlacePaper,
  { letters, tiles }: Readonly<{ letters: Letters; tiles: Tiles }>,
): readonly PageItem[] {
  const size = PAPERS[paper.paper]
  const right = size.widthMm - MARGIN
  const { columns, rows } = tiles
  const { insideWidthMm, insideHeightMm } = paper.problem.frame
  const told = [
    `Screen ${paper.screen}, inside ${lengthText(insideWidthMm)} by ${lengthText(insideHeightMm)} mm, on ${columns * rows} sheets of true size. ${ruleWords(paper.check)}`,
    '1. Print at 100 %, not fitted to the page. On each sheet the bar must measure 100 mm.',
    `2. Cut each sheet along its dashed edges, at the left and at the top. Begin with A1 and lay each next sheet with its cut edge on the thin line of the one before, ${OVERLAP_MM} mm over it: the halves of each cross become one.`,
    '3. Tape them. Measure the whole from line to line of the frame: it must be as long as is written above.',
    '4. Lay it on the glass or under the screen, this side up, as the print will read: the thick outer line is the inside of the frame, and each film lies with its edges on its own lines. Take the template away before the lamp is lit.',
  ]
  const plain = { face: 'plain', sizeMm: TEXT } as const
  const lines = told.flatMap((text, at) => [
    ...wrapped(letters, text, { ...plain, widthMm: right - MARGIN }).map((words) => words),
    ...(at === 0 ? [''] : []),
  ])
  const top = 38
  const drawingTop = top + lines.length * 5.4 + 8
  const room = { widthMm: right - MARGIN, heightMm: size.heightMm - 26 - drawingTop }
  const by = Math.max(tilesWidth(tiles) / room.widthMm, tilesHeight(tiles) / room.heightMm)
  const origin = {
    xMm: (size.widthMm - tilesWidth(tiles) / by) / 2 - tiles.first.xMm / by,
    yMm: drawingTop - tiles.first.yMm / by,
  }
  return [
    ...line(letters, paper.shop.name, { face: 'bold', sizeMm: 4, xMm: MARGIN, yMm: 14 }),
    ...(paper.shop.demo
      ? demoTape(paper.shop.name, { letters, unitMm: 0.8, rightMm: right, yMm: 8 })
      : []),
    ...line(letters, 'Where to lay it, true size', {
      face: 'title',
      sizeMm: 12,
      xMm: MARGIN - 0.5,
      yMm: 29,
    }),
    ...lines.flatMap((text, at) =>
      line(letters, text, { ...plain, xMm: MARGIN, yMm: top + at * 5.4 }),
    ),
    ...sheetMap(paper, { letters, tiles, by, origin, page: size }),
    ...foot(
      { shop: paper.shop, about: `Screen ${paper.screen}, ${dayWords(paper.date)}` },
      { letters, sizeMm: SMALL, leftMm: MARGIN, rightMm: right, yMm: size.heightMm - 10 },
    ),
  ]
}

function tilesWidth({ columns, step }: Tiles): number {
  return columns * step.xMm + OVERLAP_MM
}

function tilesHeight({ rows, step }: Tiles): number {
  return rows * step.yMm + OVERLAP_MM
}

function sheetMap(
  paper: PlacePaper,
  {
    letters,
    tiles,
    by,
    origin,
    page,
  }: Readonly<{
    letters: Letters
    tiles: Tiles
    by: number
    origin: Place
    page: Readonly<{ widthMm: number; heightMm: number }>
  }>,
): readonly PageItem[] {
  const { columns, rows, step, first } = tiles
  const whole: Box = { xMm: 0, yMm: 0, ...page }
  const { segments } = placeContent(paper, { scale: 1 / by })
  const edge = (column: number, row: number): Place => ({
    xMm: origin.xMm + (first.xMm + column * step.xMm) / by,
    yMm: origin.yMm + (first.yMm + row * step.yMm) / by,
  })
  const lines = [
    ...Array.from({ length: columns + 1 }, (_, at) => [edge(at, 0), edge(at, rows)]),
    ...Array.from({ length: rows + 1 }, (_, at) => [edge(0, at), edge(columns, at)]),
  ]
  return [
    ...windowOf({ segments, words: [] }, { origin, window: whole, letters }),
    ...lines.map((points) => dashed(points)),
    ...Array.from({ length: columns * rows }, (_, at) => {
      const place = { column: at % columns, row: Math.floor(at / columns) }
      const { xMm, yMm } = edge(place.column, place.row)
      return line(letters, tileName(place), {
        face: 'title',
        sizeMm: 8,
        xMm: xMm + 3,
        yMm: yMm + 9,
      })
    }).flat(),
  ]
}
