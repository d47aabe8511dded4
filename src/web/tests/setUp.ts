import type { Path } from '../../api/paths.ts'

/** What a dose is believed for: fabric, bucket and lamp. What is left out is the usual one. */
export type SetUp = Readonly<{ fabric: string; batch: string; unit: string }>

const KEYS = ['fabric', 'batch', 'unit'] as const

/** The set-up an address names; empty where it names none. */
export function setUpOf(search: string): SetUp {
  const said = new URLSearchParams(search)
  const { fabric, batch, unit } = Object.fromEntries(KEYS.map((key) => [key, said.get(key) ?? '']))
  return { fabric: fabric ?? '', batch: batch ?? '', unit: unit ?? '' }
}

/** A question to a path or the address of a page: what is empty is left out. */
export function withWords<Answers>(
  path: Path<Answers>,
  words: Readonly<Record<string, string>>,
): Path<Answers>
export function withWords(path: string, words: Readonly<Record<string, string>>): string
export function withWords(path: string, words: Readonly<Record<string, string>>): string {
  const said = new URLSearchParams(Object.entries(words).filter(([, word]) => word !== ''))
  return said.size === 0 ? path : `${path}?${said.toString()}`
}

/** The same without what is empty, as it goes into a message. */
export function saidOnly<Words extends Readonly<Record<string, string>>>(
  words: Words,
): Partial<Words> {
  return Object.fromEntries(
    Object.entries(words).filter(([, word]) => word !== ''),
  ) as Partial<Words>
}
