import { PATHS } from '../../api/paths.ts'
import { type ShopCheck, shopCheck } from '../../api/upkeep.ts'
import type { Command } from '../command.ts'
import { SHOP, withShop } from '../shopOption.ts'

export const check: Command = {
  name: 'check',
  summary: "reads a shop's data through and says whether all of it is sound",
  places: [],
  options: [SHOP],
  example: {
    line: 'check --shop shop',
    prints:
      'Sound: 87 records and 3 files (0.0 MB) read through, and what is saved reaches the disk.',
  },
  run: (given, io) =>
    withShop(given.of(SHOP), io, async (ask) => {
      const record = shopCheck.parse(await (await ask(PATHS.check)).json())
      return { record, text: checkText(record) }
    }),
}

function checkText({ verdict, rows, blobs, dangling, durable }: ShopCheck): string {
  const all = Object.values(rows).reduce<number>((sum, count) => sum + (count ?? 0), 0)
  const megabytes = (blobs.bytes / 1e6).toFixed(1)
  const saves = durable === true ? ', and what is saved reaches the disk' : ''
  const read = `${all} records and ${blobs.count} files (${megabytes} MB) read through`
  if (verdict === 'sound') return `Sound: ${read}${saves}.`
  const unreadable = Object.entries(rows).flatMap(([table, count]) =>
    count === null ? [table] : [],
  )
  return [
    `Damaged: ${read}.`,
    ...unreadable.map((table) => `- ${table} cannot be read through.`),
    ...dangling.map(
      ({ table, column, count }) => `- ${count} of ${table} name a ${column} that is not there.`,
    ),
    ...blobs.damaged.map((sha256) => `- The file ${sha256} is damaged.`),
    ...blobs.missing.map((sha256) => `- The file ${sha256} is gone.`),
    ...(durable === false ? ['- What is saved does not reach the disk.'] : []),
    "Restore the newest backup into an empty folder: 'help restore'.",
  ].join('\n')
}
