import type { Cause } from './cause.ts'
import { CAUSES } from './causes.ts'
import { SIGNS, type Sign } from './signs.ts'

/** Causes, signs and how often the two go together, as a shop has them. */
export type DiagnosisTable = Readonly<{
  /** In the order in which they are told; those that the shop took out are not there. */
  causes: ReadonlyMap<string, TableCause>
  /** In the order in which they are asked. */
  signs: ReadonlyMap<string, Sign>
}>

export type TableCause = Omit<Cause, 'signs'> &
  Readonly<{
    /** How often each sign is there when this is the cause, 0..1. */
    links: ReadonlyMap<string, Link>
  }>

/** `isSeen`: somebody of the shop saw it so; else it is judged. */
export type Link = Readonly<{ chance: number; isSeen: boolean }>

/** A row of a shop's own: it stands over the same row of the program, or beside it. */
export type TableRow =
  | Readonly<{ kind: 'cause'; cause: string; says: CauseSays }>
  | Readonly<{ kind: 'sign'; sign: string; says: Sign }>
  | Readonly<{ kind: 'link'; cause: string; sign: string; chance: number; isSeen: boolean }>

export type CauseSays = Pick<Cause, 'says' | 'share' | 'now' | 'next'> &
  Readonly<{
    /** False: it does not happen here, so that it is never named. */
    isUsed: boolean
  }>

/** The table before a shop changed anything. */
export const USUAL_TABLE: DiagnosisTable = {
  causes: new Map(
    Object.entries(CAUSES).map(([name, { signs, ...cause }]) => [
      name,
      {
        ...cause,
        links: new Map(
          Object.entries(signs).map(([sign, chance]) => [sign, { chance, isSeen: false }]),
        ),
      },
    ]),
  ),
  signs: new Map(Object.entries(SIGNS)),
}

/** The table with a shop's own rows; a link whose cause or sign is not there is left out. */
export function tableWith(rows: readonly TableRow[]): DiagnosisTable {
  const signs = new Map(USUAL_TABLE.signs)
  const causes = new Map(USUAL_TABLE.causes)
  for (const row of rows) {
    if (row.kind === 'sign') signs.set(row.sign, row.says)
    if (row.kind === 'cause') {
      const { isUsed, ...says } = row.says
      const links = causes.get(row.cause)?.links ?? new Map<string, Link>()
      if (isUsed) causes.set(row.cause, { ...says, links })
      else causes.delete(row.cause)
    }
  }
  for (const row of rows) {
    const cause = row.kind === 'link' ? causes.get(row.cause) : undefined
    if (row.kind !== 'link' || cause === undefined || !signs.has(row.sign)) continue
    const links = new Map(cause.links)
    links.set(row.sign, { chance: row.chance, isSeen: row.isSeen })
    causes.set(row.cause, { ...cause, links })
  }
  return { causes, signs }
}

/** The table's word for a link: its own, or how often the sign is there for other causes. */
export function linkIn({ causes, signs }: DiagnosisTable, sign: string, cause: string): number {
  return causes.get(cause)?.links.get(sign)?.chance ?? signs.get(sign)?.elsewhere ?? 1
}
