import { PATHS } from '../../api/paths.ts'
import { FORCE_SWITCH, type Option } from '../arguments.ts'
import type { Command } from '../command.ts'
import { tidyWhenInterrupted } from '../interrupted.ts'
import { path } from '../reads.ts'
import { writeBody } from '../shopBody.ts'
import { SHOP, withShop } from '../shopOption.ts'

const OUT: Option<string> = {
  name: 'out',
  about: 'the file to write the backup to',
  needed: true,
  reads: path({ what: 'backup', shown: 'FILE' }),
}

export const backup: Command = {
  name: 'backup',
  summary: 'everything the shop has, in one file, while its pages go on being served',
  places: [],
  options: [OUT, SHOP, FORCE_SWITCH],
  notes: [
    'Keep it on another disk. The file is read through and held to its own sums when it is written.',
  ],
  example: {
    line: 'backup --out monday.tar --shop shop',
    prints: 'monday.tar holds 87 records and 3 files.',
  },
  run: async (given, io) => {
    const out = given.needs(OUT)
    const force = given.has(FORCE_SWITCH)
    const { refuseExisting, writeWhole } = await import('../../decode/files.ts')
    await refuseExisting(out, { force })
    await tidyWhenInterrupted(() =>
      withShop(given.of(SHOP), io, async (ask) => {
        const sent = await ask(PATHS.backup)
        await writeWhole(out, { force }, async (sink) => void (await writeBody(sent, sink)))
      }),
    )
    const { verifyBackup } = await import('../../store/backup/readBackup.ts')
    const { end } = await verifyBackup(out)
    const rows = Object.values(end.rows).reduce((sum, count) => sum + count, 0)
    const { blobs, damaged, missing } = end
    const lost = damaged.length + missing.length
    const trouble =
      lost === 0 ? '' : ` ${lost} files are damaged or gone in the shop: 'check' names them.`
    return {
      record: { kind: 'backup', out, rows, blobs, damaged, missing },
      text: `${out} holds ${rows} records and ${blobs} files.${trouble}`,
    }
  },
}
