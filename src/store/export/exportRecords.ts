import { heldBack } from '../backup/heldBack.ts'
import { rowPartsOf } from '../backup/rowParts.ts'
import { tablesInOrder } from '../backup/tablesInOrder.ts'
import type { Sink } from '../backup/tar.ts'
import { atOneMoment } from '../database/database.ts'
import { migrationsDone } from '../database/migrate.ts'
import type { At } from '../database/record.ts'
import type { OpenShop } from '../openShop.ts'
import { shopOrNull } from '../shop.ts'

/** By what people sign in stays in the shop; a backup has it. */
const SECRET: ReadonlySet<string> = new Set(['credential', 'session'])

/**
 * Every record of the shop as one JSON object, secrets apart, table by table, as they stood at one moment; each
 * table after those it refers to, rows in an order that does not change. Files are named by their
 * SHA-256; they themselves are in a backup.
 */
export async function exportRecords(
  shop: Pick<OpenShop, 'database' | 'folder'>,
  sink: Sink,
  { at }: At,
): Promise<void> {
  await heldBack(shop.folder, { sink, at }, (file) => writeRecords(shop, file))
}

async function writeRecords({ database }: Pick<OpenShop, 'database'>, sink: Sink): Promise<void> {
  const encoder = new TextEncoder()
  const write = (text: string): Promise<void> => sink(encoder.encode(text))
  await atOneMoment(database, async (inner) => {
    const shop = await shopOrNull(inner)
    const head = {
      kind: 'yellowroom export',
      shop: shop?.name ?? null,
      demo: shop?.kind === 'demo',
      schema: (await migrationsDone(inner)).at(-1) ?? null,
    }
    await write(`${JSON.stringify(head, null, 1).slice(0, -2)},\n "tables": {`)
    let between = '\n'
    for (const table of await tablesInOrder(inner)) {
      if (SECRET.has(table)) continue
      await write(`${between}  ${JSON.stringify(table)}: [`)
      let before = '\n   '
      for await (const { text } of rowPartsOf(inner, table)) {
        await write(before + text.trimEnd().replaceAll('\n', ',\n   '))
        before = ',\n   '
      }
      await write(before === '\n   ' ? ']' : '\n  ]')
      between = ',\n'
    }
    await write('\n }\n}\n')
  })
}
