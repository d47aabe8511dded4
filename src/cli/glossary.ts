import { readFile } from 'node:fs/promises'
import { hung } from './helpText.ts'

export type Entry = Readonly<{ word: string; meaning: string }>

/** The one place where words are settled; the same file people read in docs/. */
export const GLOSSARY: URL = new URL('../../docs/glossary.md', import.meta.url)

const LINE = /^- \*\*(?<word>.+?)\*\*: (?<meaning>.+)$/

export async function readGlossary(): Promise<readonly Entry[]> {
  return entriesOf(await readFile(GLOSSARY, 'utf8'))
}

/** Each line `- **word**: meaning` of the glossary, in its order. */
export function entriesOf(markdown: string): readonly Entry[] {
  return markdown.split('\n').flatMap((line) => {
    const { word, meaning } = LINE.exec(line)?.groups ?? {}
    return word === undefined || meaning === undefined ? [] : [{ word, meaning }]
  })
}

export function glossaryText(entries: readonly Entry[]): string {
  return entries.map(({ word, meaning }) => [word, ...hung('    ', meaning)].join('\n')).join('\n')
}
