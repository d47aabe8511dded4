// A process that works on a shop until it is killed. It says on its standard output, with one
// write each, what was acknowledged to it; whoever reads that holds the shop to it afterwards.
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import { sql } from 'kysely'
import { blobFile, sha256Of, storeBlob } from '../../../dist/store/blobs/blobStore.js'
import { blobFiles } from '../../../dist/store/blobs/clearBlobs.js'
import { inTransaction } from '../../../dist/store/database/database.js'
import { queueJob } from '../../../dist/store/jobs.js'
import { openShop } from '../../../dist/store/openShop.js'
import { addPerson } from '../../../dist/store/people.js'

const [folder = '', work = '', acknowledged = ''] = process.argv.slice(2)
const say = (line) => writeSync(1, `${line}\n`)

say('begun')
const shop = await openShop(folder, { onStep: (step) => say(`step ${step}`) })
say('open')
const { database, blobs } = shop
const before = readFileSync(acknowledged, 'utf8').split('\n').filter(Boolean)
const saved = await hold(before)
say(`held ${before.length}`)

if (work === 'first') {
  await addPerson(database, { name: 'row 1', role: 'printer' }, { at: new Date() })
  say('row 1')
  await shop.close()
  say('closed')
} else if (work === 'rows') {
  for (let number = saved + 1; ; number++) await commit(number)
} else {
  for (let number = before.length + 1; ; number++) await keep(number)
}

/** Two rows and a count in one transaction; now and then what the shop does by itself. */
async function commit(number) {
  const at = new Date()
  await inTransaction(database, async (inner) => {
    await addPerson(inner, { name: `row ${number}`, role: 'printer' }, { at })
    const payload = { number, filling: 'x'.repeat((number * 37) % 900) }
    await queueJob(inner, { kind: `row ${number}`, payload }, { at })
    await sql`insert into upkeep values ('check', to_timestamp(${number}))
      on conflict (task) do update set done_at = excluded.done_at`.execute(inner)
  })
  say(`row ${number}`)
  if (number % 9 === 0) await sql`checkpoint`.execute(database)
  if (number % 50 === 0) await sql`vacuum (analyze)`.execute(database)
}

async function keep(number) {
  const bytes = contentOf(number)
  const parts = (async function* () {
    for (let at = 0; at < bytes.length; at += 65_536) yield bytes.subarray(at, at + 65_536)
  })()
  const wanted = { mediaType: 'image/png', limitBytes: 8 * 2 ** 20 }
  const { sha256 } = await storeBlob(blobs, parts, wanted, { at: new Date() })
  say(`blob ${sha256} ${bytes.length}`)
}

/** 1 byte to 600 kB that look like nothing, the same for the same number. */
function contentOf(number) {
  const seed = createHash('sha256').update(`content ${number}`).digest()
  const bytes = Buffer.alloc(1 + (seed.readUInt32LE(0) % 600_000))
  for (let at = 0; at < bytes.length; at += 32) seed.copy(bytes, at)
  bytes.writeUInt8(number % 256, bytes.length - 1)
  return bytes
}

/**
 * Everything that was acknowledged is there, whole; nothing else is there by halves. What was saved
 * and not yet acknowledged may be there. Gives the number of rows.
 */
async function hold(lines) {
  const people = await database.selectFrom('person').select('name').orderBy('id').execute()
  const names = new Set(people.map(({ name }) => name))
  const noted = new Set(
    (await database.selectFrom('blob').select('sha256').execute()).map(({ sha256 }) => sha256),
  )
  for await (const { path, sha256 } of blobFiles(shop.folder)) {
    expect((await sha256Of(path)) === sha256, `${path} is there by half`)
  }
  for (const line of lines) {
    const [kind, name, size] = line.split(' ')
    if (kind === 'row') expect(names.has(line), `${line} is gone`)
    if (kind !== 'blob') continue
    const { sizeBytes } = await blobFile(blobs, name)
    expect(sizeBytes === Number(size), `${line} is not whole`)
    expect(noted.has(name), `${line} is not noted`)
  }
  const { rows } = await sql`select p.name, j.kind from person p
    full join job j on j.kind = p.name where p.name is null or j.kind is null`.execute(database)
  if (work === 'rows') expect(rows.length === 0, `half of a commit: ${JSON.stringify(rows)}`)
  const counted = await sql`select extract(epoch from done_at) as number from upkeep
    where task = 'check'`.execute(database)
  const last = Number(counted.rows[0]?.number ?? 0)
  const most = people.length
  expect(names.size === most, 'a row is there twice')
  if (work === 'rows') expect(last === most, `the count says ${last}, the rows ${most}`)
  await sql`set enable_seqscan = off`.execute(database)
  const byIndex = await sql`select count(*) as count from person where id > ''`.execute(database)
  expect(byIndex.rows[0].count === most, `the index finds ${byIndex.rows[0].count} of ${most}`)
  await sql`reset enable_seqscan`.execute(database)
  expect(readdirSync(join(folder, 'incoming')).length === 0, 'half a file was left behind')
  return most
}

function expect(holds, otherwise) {
  if (holds) return
  say(`BROKEN ${otherwise}`)
  process.exit(1)
}
