export type PaperName = 'a4' | 'letter' | 'a3' | 'tabloid'

export type PaperSize = Readonly<{ widthMm: number; heightMm: number }>

/**
 * Sheets that papers are laid out for, upright.
 *
 * @source iso216, ansi-y14
 */
export const PAPERS: Readonly<Record<PaperName, PaperSize>> = {
  a4: { widthMm: 210, heightMm: 297 },
  a3: { widthMm: 297, heightMm: 420 },
  letter: { widthMm: 8.5 * 25.4, heightMm: 11 * 25.4 },
  tabloid: { widthMm: 11 * 25.4, heightMm: 17 * 25.4 },
}
