import { PATHS } from '../../api/paths.ts'
import { Failure } from '../../core/failure.ts'
import { FORCE_SWITCH, type Option } from '../arguments.ts'
import type { Command } from '../command.ts'
import { tidyWhenInterrupted } from '../interrupted.ts'
import { path, type Reads } from '../reads.ts'
import { writeBody } from '../shopBody.ts'
import { SHOP, withShop } from '../shopOption.ts'

const anyPath = path({ what: 'file to write', shown: 'shop.json' })
const jsonOrCsv: Reads<string> = {
  shown: 'PATH',
  read: (text) => {
    const out = anyPath.read(text)
    if (/\.(json|csv)$/i.test(out)) return out
    const message =
      'The file to write must end in .json, for every record, or in .csv, for the table of doses and what came of them.'
    throw new Failure('wrong input', message)
  },
}

const OUT: Option<string> = {
  name: 'out',
  about: 'the file to write: .json for every record, .csv for a table of doses',
  needed: true,
  reads: jsonOrCsv,
}

export const exportShop: Command = {
  name: 'export',
  summary: "a shop's records in an open form, for other programs to read",
  places: [],
  options: [OUT, SHOP, FORCE_SWITCH],
  notes: [
    'The table has a line for each dose of a strip and each finished screen, as import reads it; readings that were struck out and wedges stand in the .json alone. Films and photos themselves are in a backup.',
    'Records name people: keep them as your school wants such lists kept.',
  ],
  example: {
    line: 'export --out readings.csv --shop shop',
    prints: 'readings.csv holds doses and what came of them, 0.4 kB.',
  },
  run: async (given, io) => {
    const out = given.needs(OUT)
    const force = given.has(FORCE_SWITCH)
    const isTable = /\.csv$/i.test(out)
    const { refuseExisting, writeWhole } = await import('../../decode/files.ts')
    await refuseExisting(out, { force })
    let bytes = 0
    await tidyWhenInterrupted(() =>
      withShop(given.of(SHOP), io, async (ask) => {
        const sent = await ask(isTable ? PATHS.exportNotes : PATHS.exportRecords)
        await writeWhole(out, { force }, async (sink) => {
          bytes = await writeBody(sent, sink)
        })
      }),
    )
    const what = isTable ? 'doses and what came of them' : 'every record'
    return {
      record: { kind: 'export', out, form: isTable ? 'csv' : 'json', bytes },
      text: `${out} holds ${what}, ${(bytes / 1000).toFixed(1)} kB.`,
    }
  },
}
