import { type NewTroubleRow, newTroubleRow, type TroubleTable } from '../../api/diagnosis.ts'
import { learnedBeliefs } from '../../core/diagnosis/learned.ts'
import {
  type DiagnosisTable,
  type TableCause,
  type TableRow,
  tableWith,
  USUAL_TABLE,
} from '../../core/diagnosis/table.ts'
import { Failure } from '../../core/failure.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { type At } from '../../store/database/record.ts'
import { failures } from '../../store/diagnosisFailures.ts'
import {
  type DiagnosisRow,
  diagnosisRows,
  dropDiagnosisRow,
  keepDiagnosisRow,
} from '../../store/diagnosisRows.ts'
import { sortableId } from '../../store/ids.ts'
import { theShop } from '../../store/shop.ts'
import type { Told } from '../http/route.ts'
import type { ShopService } from '../shop/shopService.ts'
import { confirmedOf, expectCause, MOST_LEARNED, signsIn } from './inTable.ts'

const MOST_ROWS = 2000

type Kept = Readonly<{ row: DiagnosisRow; told: NewTroubleRow }>

export type ShopTable = Readonly<{
  table: DiagnosisTable
  kept: readonly Kept[]
  /** A cause in words, also one that is out of use. */
  causeSays: (cause: string) => string
}>

/** The table as this shop has it, and the rows that it changed or added. */
export async function shopTable(database: Database): Promise<ShopTable> {
  const kept = (await diagnosisRows(database)).map((row) => ({ row, told: toldOf(row) }))
  const table = tableWith(kept.map(({ told }) => rowOf(told)))
  const causeSays = (cause: string): string => {
    const own = kept.find(({ told }) => told.kind === 'cause' && told.cause === cause)?.told
    return own?.kind === 'cause' ? own.says : (table.causes.get(cause)?.says ?? cause)
  }
  return { table, kept, causeSays }
}

/**
 * Takes a row of the shop's own out: the program's own counts again. With what the shop added its
 * links go.
 *
 * @throws Failure 'not found', or 'conflict' for a cause or sign that failures were told with
 */
export async function takeOutOfTable(database: Database, id: string): Promise<void> {
  const { kept, causeSays } = await shopTable(database)
  const row = kept.find((each) => each.row.id === id)?.row
  const { kind, cause, sign } = row ?? { kind: 'link', cause: null, sign: null }
  const name = kind === 'cause' ? cause : kind === 'sign' ? sign : null
  const isAdded = name !== null && !USUAL_TABLE.causes.has(name) && !USUAL_TABLE.signs.has(name)
  if (name !== null && isAdded) {
    const told = (await failures(database, { limit: MOST_LEARNED })).filter(
      (failure) =>
        failure.cause === name ||
        failure.guessed === name ||
        failure.yes.includes(name) ||
        failure.no.includes(name),
    ).length
    if (told > 0) {
      const message =
        kind === 'cause'
          ? `Failures were told with “${causeSays(name)}”: say instead that it does not happen here.`
          : 'Failures were told with this sign, so it stays: change its words instead.'
      throw new Failure('conflict', message)
    }
  }
  await inTransaction(database, async (inner) => {
    await dropDiagnosisRow(inner, id)
    if (!isAdded) return
    const own = kept.filter(
      (each) => each.row.kind === 'link' && each.row[kind === 'cause' ? 'cause' : 'sign'] === name,
    )
    for (const link of own) await dropDiagnosisRow(inner, link.row.id)
  })
}

/**
 * Puts a row into the shop's table.
 *
 * @throws Failure 'wrong input' for a cause or sign that there is not, 'too large' when the table is full
 */
export async function changeTable(
  database: Database,
  told: NewTroubleRow,
  { at }: At,
): Promise<void> {
  const { table, kept } = await shopTable(database)
  if (kept.length >= MOST_ROWS) {
    const message = `The table holds ${MOST_ROWS} rows of your own at most: take some out first.`
    throw new Failure('too large', message)
  }
  const named = (name: string | undefined): string => name ?? `own ${sortableId(at)}`
  const { kind, isSeen } = told
  switch (told.kind) {
    case 'cause': {
      const { kind: _, cause, isSeen: __, ...facts } = told
      if (cause !== undefined && kept.every(({ row }) => row.cause !== cause)) {
        expectCause(cause, table)
      }
      const names = { cause: named(cause), sign: null }
      await keepDiagnosisRow(database, { kind, ...names, facts, isSeen }, { at })
      return
    }
    case 'sign': {
      const { kind: _, sign, isSeen: __, ...facts } = told
      if (sign !== undefined) signsIn([sign], { table, field: 'sign' })
      const names = { cause: null, sign: named(sign) }
      await keepDiagnosisRow(database, { kind, ...names, facts, isSeen }, { at })
      return
    }
    case 'link': {
      const { cause, sign, chance } = told
      expectCause(cause, table)
      signsIn([sign], { table, field: 'sign' })
      await keepDiagnosisRow(database, { kind, cause, sign, facts: { chance }, isSeen }, { at })
    }
  }
}

/** The whole table in the words of the contract: the commonest cause first, those out of use last. */
export async function tableTold({ store: { database } }: ShopService): Promise<Told<TroubleTable>> {
  const { table, kept } = await shopTable(database)
  const confirmed = confirmedOf(await failures(database, { limit: MOST_LEARNED }), table)
  const beliefs = learnedBeliefs(confirmed, table)
  const all = [...table.causes.keys()].reduce((sum, cause) => sum + beliefs.shareOf(cause), 0)
  const shares = [...table.causes.values()].reduce((sum, { share }) => sum + share, 0)
  const rowFor = (kind: DiagnosisRow['kind'], cause: string | null, sign: string | null) =>
    kept.find(({ row }) => row.kind === kind && row.cause === cause && row.sign === sign)?.row
  const unused = kept.flatMap(({ told }) =>
    told.kind === 'cause' && told.cause !== undefined && !told.isUsed
      ? [[told.cause, { ...told, links: new Map() }] as const]
      : [],
  )
  const told = (cause: string, is: TableCause, isUsed: boolean) => {
    const row = rowFor('cause', cause, null)
    return {
      cause,
      says: is.says,
      share: isUsed ? is.share / shares : is.share,
      shareNow: isUsed ? beliefs.shareOf(cause) / all : 0,
      now: is.now,
      next: is.next,
      isUsed,
      isSeen: row?.isSeen ?? false,
      row: row?.id ?? null,
      isAdded: !USUAL_TABLE.causes.has(cause),
      confirmed: confirmed.filter((each) => each.cause === cause).length,
      links: [...is.links]
        .map(([sign, { chance, isSeen }]) => ({
          sign,
          says: table.signs.get(sign)?.says ?? sign,
          chance,
          chanceNow: beliefs.chanceOf(sign, cause),
          isSeen,
          row: rowFor('link', cause, sign)?.id ?? null,
        }))
        .toSorted((a, b) => b.chanceNow - a.chanceNow),
    }
  }
  return {
    kind: 'trouble table',
    demo: (await theShop(database)).kind === 'demo',
    learnedFrom: confirmed.length,
    causes: [
      ...[...table.causes]
        .map(([cause, is]) => told(cause, is, true))
        .toSorted((a, b) => b.shareNow - a.shareNow),
      ...unused.map(([cause, is]) => told(cause, is, false)),
    ],
    signs: [...table.signs].map(([sign, { where, says, elsewhere, test }]) => ({
      sign,
      where,
      says,
      elsewhere,
      test,
      row: rowFor('sign', null, sign)?.id ?? null,
      isAdded: !USUAL_TABLE.signs.has(sign),
    })),
  }
}

/** A kept row as it was told; we wrote it by this contract. */
function toldOf({ kind, cause, sign, facts, isSeen }: DiagnosisRow): NewTroubleRow {
  return newTroubleRow.parse({
    kind,
    ...(cause === null ? {} : { cause }),
    ...(sign === null ? {} : { sign }),
    ...(facts as Readonly<Record<string, unknown>>),
    isSeen,
  })
}

function rowOf(told: NewTroubleRow): TableRow {
  switch (told.kind) {
    case 'cause': {
      const { says, share, now, next, isUsed } = told
      return { kind: 'cause', cause: told.cause ?? '', says: { says, share, now, next, isUsed } }
    }
    case 'sign': {
      const { where, says, elsewhere, test } = told
      return { kind: 'sign', sign: told.sign ?? '', says: { where, says, elsewhere, test } }
    }
    case 'link':
      return told
  }
}
