import type { PageItem } from '../../formats/filmPage.ts'
import type { Face, Letters, Setting, Standing } from '../../formats/letters.ts'
import type { Path } from '../../formats/pagePath.ts'

/** Words of one face within a line. */
export type Run = readonly [Face, string]

/** One line of text; nothing where it is empty. */
export function line(letters: Letters, text: string, how: Setting & Standing): readonly PageItem[] {
  return filled(letters.path(text, how))
}

/** One line of several faces. */
export function runs(
  letters: Letters,
  parts: readonly Run[],
  { sizeMm, xMm, yMm, anchor = 'start' }: Omit<Setting, 'face'> & Standing,
): readonly PageItem[] {
  const widths = parts.map(([face, text]) => letters.widthMm(text, { face, sizeMm }))
  const whole = widths.reduce((sum, width) => sum + width, 0)
  const start = xMm - { start: 0, middle: 0.5, end: 1 }[anchor] * whole
  return parts.flatMap(([face, text], at) => {
    const before = widths.slice(0, at).reduce((sum, width) => sum + width, 0)
    return filled(letters.path(text, { face, sizeMm, xMm: start + before, yMm }))
  })
}

function filled(path: Path): readonly PageItem[] {
  return path.length === 0 ? [] : [{ kind: 'fill', path }]
}

/** Text broken between words into lines no wider than that; a longer word has a line to itself. */
export function wrapped(
  letters: Letters,
  text: string,
  { widthMm, ...setting }: Setting & Readonly<{ widthMm: number }>,
): readonly string[] {
  const lines: string[] = []
  let current = ''
  for (const word of text.split(' ')) {
    const longer = current === '' ? word : `${current} ${word}`
    if (current !== '' && letters.widthMm(longer, setting) > widthMm) {
      lines.push(current)
      current = word
    } else current = longer
  }
  return current === '' ? lines : [...lines, current]
}

/** The size, at most the one asked, at which all lines are no wider than that. */
export function fittingMm(
  letters: Letters,
  texts: readonly string[],
  { widthMm, ...setting }: Setting & Readonly<{ widthMm: number }>,
): number {
  const widest = Math.max(...texts.map((text) => letters.widthMm(text, setting)))
  return widest <= widthMm ? setting.sizeMm : (setting.sizeMm * widthMm) / widest
}

/** A line with the size at which it fits. */
export type Sized = Readonly<{ text: string; sizeMm: number }>

/** Small letters are 10.5 points, as on every paper. */
const SMALL_SHARE = 0.95
/** Smaller than one should read, and still whole: the last way out for a long sentence. */
const SMALLEST_SHARE = 0.8

/** A sentence in as few rows as it fits, a little smaller if that saves one; past the last it is cut. */
export function fewRows(
  letters: Letters,
  text: string,
  { widthMm, rows, sizeMm: wished, ...face }: Setting & Readonly<{ widthMm: number; rows: number }>,
): readonly Sized[] {
  const inLines = (share: number): readonly Sized[] => {
    const sizeMm = share * wished
    return wrapped(letters, text, { ...face, sizeMm, widthMm }).map((words) => ({
      text: words,
      sizeMm,
    }))
  }
  for (let most = 1; most <= rows; most++) {
    for (const share of [1, SMALL_SHARE]) {
      const lines = inLines(share)
      if (lines.length <= most) return lines
    }
  }
  return inLines(SMALLEST_SHARE).slice(0, rows)
}
