import type { Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { path } from '../reads.ts'
import { SHOP, shopFolder } from '../shopOption.ts'

const BACKUP: Place<string> = {
  name: 'BACKUP',
  about: 'the file that backup wrote',
  needed: true,
  reads: path({ what: 'backup', shown: 'BACKUP' }),
}

export const restore: Command = {
  name: 'restore',
  summary: 'makes a shop of a backup, in an empty folder: all of it or nothing',
  places: [BACKUP],
  options: [SHOP],
  example: {
    line: 'restore monday.tar --shop again',
    prints: 'again holds 87 records and 3 files, as they were on 2026-11-23.',
  },
  run: async (given, io) => {
    const folder = shopFolder(given.of(SHOP), io)
    const databaseUrl = io.env['DATABASE_URL']
    const { restoreShop } = await import('../../store/backup/restoreShop.ts')
    const summary = await restoreShop(given.needs(BACKUP), {
      folder,
      ...(databaseUrl === undefined ? {} : { databaseUrl }),
    })
    const { rows, blobs, damaged, missing } = summary
    const backupAt = summary.backupAt.toISOString()
    const lost = damaged.length + missing.length
    const trouble = lost === 0 ? '' : ` ${lost} files were damaged or gone when it was made.`
    return {
      record: { kind: 'restore', shop: folder, backupAt, rows, blobs, damaged, missing },
      text: `${given.of(SHOP) ?? folder} holds ${rows} records and ${blobs} files, as they were on ${backupAt.slice(0, 10)}.${trouble}`,
    }
  },
}
