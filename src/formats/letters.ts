import type { Path, Place } from './pagePath.ts'

/** The stencil letters of titles, and those that all else is set in. */
export type Face = 'title' | 'plain' | 'bold'

export type Setting = Readonly<{
  face: Face
  /** Height of the em: from line to line when they are set solid. */
  sizeMm: number
}>

/** Where the first letter begins, or the middle or the end of the line stands, on its baseline. */
export type Standing = Place & Readonly<{ anchor?: 'start' | 'middle' | 'end' }>

/**
 * Lines of text as outlines, for papers. Whoever opens fonts hands this in: the pure layers know no
 * files.
 */
export type Letters = Readonly<{
  /** Black where filled by the non-zero rule; empty for a line of spaces. */
  path: (text: string, how: Setting & Standing) => Path
  /** How far the line reaches, from its start to where the next letter would stand. */
  widthMm: (text: string, setting: Setting) => number
}>
