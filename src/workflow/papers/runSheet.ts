import type { Asks, Step } from '../../core/runSheet/step.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { rectanglePath } from '../../formats/pagePath.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fittingMm, line, wrapped } from './lines.ts'
import { filledBox } from './shapes.ts'

/** The run sheet of one exposure. */
export type RunSheet = Readonly<{
  subject: string
  screen: string | null
  unit: string
  countsIn: 'light units' | 'seconds'
  dose: Readonly<{ value: number; low: number; high: number }>
  steps: readonly Step[]
  shop: PaperShop
  /** As 2026-11-09. */
  date: string
}>

/** @source iso216 */
const A5 = { widthMm: 148, heightMm: 210 }
const MARGIN = 10
const RIGHT = A5.widthMm - MARGIN
/** 10.5 points. */
const TEXT = 3.7
const TITLE = 4.4
const ROW = 4.6
const BOX = 4.2
const INDENT = BOX + 2.6
const TOP = 43.6
const BOTTOM = A5.heightMm - 15.5
const GAP = 1.2
/** Where the second half of the work begins: a sheet for the lamp, one for the sink. */
const AT_SINK = 'wet'

/**
 * The steps of one exposure on paper, for where no screen may shine: a box for a pencil at each, room
 * for what was set and read, cautions at their steps. A5, as many sheets as it takes, the sink on one
 * of its own.
 *
 * @throws RangeError where the date cannot be
 */
export function runSheetPages(
  sheet: RunSheet,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const blocks = sheet.steps.map((step) => ({ step, block: blockOf(step, letters) }))
  const pages: (typeof blocks)[] = []
  let heightMm = BOTTOM
  for (const each of blocks) {
    const isFull = heightMm + each.block.heightMm > BOTTOM
    if (isFull || each.step.name === AT_SINK) {
      pages.push([])
      heightMm = TOP
    }
    pages.at(-1)?.push(each)
    heightMm += each.block.heightMm + GAP
  }
  return pages.map((own, index) => {
    let yMm = TOP
    const items = own.flatMap(({ block }) => {
      const drawn = block.items(yMm)
      yMm += block.heightMm + GAP
      return drawn
    })
    const of = pages.length === 1 ? '' : `, sheet ${index + 1} of ${pages.length}`
    const about = `Run sheet, ${dayWords(sheet.date)}${of}`
    const place = { sizeMm: TEXT, leftMm: MARGIN, rightMm: RIGHT, yMm: A5.heightMm - 7 }
    return {
      ...A5,
      items: [
        ...head(sheet, letters),
        ...items,
        ...foot({ shop: sheet.shop, about }, { letters, ...place }),
      ],
    }
  })
}

function head({ subject, screen, unit, countsIn, dose, shop }: RunSheet, letters: Letters) {
  const widthMm = RIGHT - MARGIN
  const title = { face: 'title', sizeMm: 9 } as const
  const number = `${whole(dose.value)} ${countsIn}`
  const rest = `${whole(dose.low)} to ${whole(dose.high)} should work`
  const numbered = { face: 'bold', sizeMm: 7 } as const
  const where = `${screen ?? 'A screen without a tag'}, ${unit}. By: ____________________`
  return [
    ...line(letters, shop.name, { face: 'bold', sizeMm: TEXT, xMm: MARGIN, yMm: 11.5 }),
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm: 0.72, rightMm: RIGHT, yMm: 6.5 }) : []),
    ...line(letters, sentence(subject), {
      ...title,
      sizeMm: fittingMm(letters, [sentence(subject)], { ...title, widthMm }),
      xMm: MARGIN - 0.3,
      yMm: 22,
    }),
    ...line(letters, sentence(where), {
      face: 'plain',
      sizeMm: fittingMm(letters, [sentence(where)], { face: 'plain', sizeMm: TEXT, widthMm }),
      xMm: MARGIN,
      yMm: 28.5,
    }),
    ...line(letters, number, { ...numbered, xMm: MARGIN, yMm: 38 }),
    ...line(letters, rest, {
      face: 'plain',
      sizeMm: TEXT,
      xMm: MARGIN + letters.widthMm(number, numbered) + 3,
      yMm: 38,
    }),
    filledBox({ xMm: MARGIN, yMm: 41.5, widthMm, heightMm: 0.3 }),
  ]
}

type Block = Readonly<{ heightMm: number; items: (yMm: number) => readonly PageItem[] }>

/** One step: its box, title and room for numbers, its lines, and what can hurt behind a bar. */
function blockOf(step: Step, letters: Letters): Block {
  const widthMm = RIGHT - MARGIN - INDENT
  const plain = { face: 'plain', sizeMm: TEXT } as const
  const lines = step.lines.flatMap((text) => wrapped(letters, text, { ...plain, widthMm }))
  const bold = { face: 'bold', sizeMm: TEXT } as const
  const cautions =
    step.caution === null ? [] : wrapped(letters, step.caution, { ...bold, widthMm: widthMm - BAR })
  const heightMm = ROW * (1 + lines.length + cautions.length) + (cautions.length === 0 ? 0 : 1)
  return {
    heightMm,
    items: (yMm) => {
      const left = MARGIN + INDENT
      const rowAt = (row: number): number => yMm + 3.9 + ROW * row
      const cautionTop = yMm + ROW * (1 + lines.length) + 0.6
      const box = { xMm: MARGIN, yMm: yMm + 0.2, widthMm: BOX, heightMm: BOX }
      const room = roomFor(step)
      const title = { face: 'bold', sizeMm: TITLE } as const
      return [
        { kind: 'stroke', widthMm: 0.35, path: rectanglePath(box) },
        ...line(letters, step.title, { ...title, xMm: left, yMm: rowAt(0) }),
        ...line(letters, room, { ...plain, xMm: RIGHT, yMm: rowAt(0), anchor: 'end' }),
        ...lines.flatMap((text, at) =>
          line(letters, text, { ...plain, xMm: left, yMm: rowAt(at + 1) }),
        ),
        ...(cautions.length === 0
          ? []
          : [
              filledBox({
                xMm: left,
                yMm: cautionTop,
                widthMm: 0.8,
                heightMm: ROW * cautions.length,
              }),
            ]),
        ...cautions.flatMap((text, at) =>
          line(letters, text, {
            ...bold,
            xMm: left + BAR,
            yMm: cautionTop + 3.7 + ROW * at,
          }),
        ),
      ]
    },
  }
}

const BAR = 2.4

/** Where a number is written, and how long a clock runs. */
function roomFor({ asks, clock }: Step): string {
  if (asks !== null) return askedRoom(asks)
  if (clock === null || clock.sec === null) return ''
  return clock.sec < 120 ? `${Math.round(clock.sec)} s` : `${Math.round(clock.sec / 60)} min`
}

function askedRoom(asks: Asks): string {
  if (asks.what === 'gauge') return 'gauge ________'
  return asks.what === 'wedge' ? 'last solid ____  first clear ____' : 'it says ________'
}

/** As counters show it: whole from 10 up, tenths below. */
function whole(count: number): string {
  return String(count < 10 ? Math.round(count * 10) / 10 : Math.round(count))
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
