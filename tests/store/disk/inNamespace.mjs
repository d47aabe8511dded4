// A process with a small disk of its own, mounted where nobody else sees it. It prints one JSON
// value a line: what happened to the shop there.
import { execFileSync } from 'node:child_process'
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  rmSync,
  statfsSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { sql } from 'kysely'
import { Failure } from '../../../dist/core/failure.js'
import { storeBlob } from '../../../dist/store/blobs/blobStore.js'
import { openShop } from '../../../dist/store/openShop.js'
import { addPerson, people } from '../../../dist/store/people.js'

const [what = '', disk = '', emptyShop = ''] = process.argv.slice(2)
const tell = (value) => process.stdout.write(`${JSON.stringify(value)}\n`)
const mount = (...options) => execFileSync('mount', [...options, 'tmpfs', disk])
const shopFolder = join(disk, 'shop')
const filling = join(disk, 'filling')
const wanted = { mediaType: 'image/png', limitBytes: 2 ** 30 }
const at = new Date(Date.UTC(2026, 8, 14))

const SCENES = {
  'full while it runs': fullWhileItRuns,
  'full under the log': fullUnderTheLog,
  'full at the start': fullAtTheStart,
  'too small': tooSmall,
  'read-only': readOnly,
}
await SCENES[what]()

async function fullWhileItRuns() {
  mount('-t', 'tmpfs', '-o', 'size=72m')
  cpSync(emptyShop, shopFolder, { recursive: true })
  const shop = await openShop(shopFolder)
  await addPerson(shop.database, { name: 'before', role: 'lead' }, { at })
  const large = (async function* () {
    for (;;) yield new Uint8Array(2 ** 20)
  })()
  tell({ blob: await outcome(storeBlob(shop.blobs, large, wanted, { at })) })
  tell({ left: [readdirSync(shop.folder.incoming), readdirSync(shop.folder.blobs)] })
  tell({ stillThere: (await people(shop.database)).map(({ name }) => name) })
  fill()
  let saved = 1
  let refusal = null
  while (refusal === null && saved < 20_000) {
    const said = await outcome(
      addPerson(shop.database, { name: 'x'.repeat(199), role: 'printer' }, { at }),
    )
    if (said === 'done') saved++
    else refusal = said
  }
  tell({ refusal, savedSome: saved > 1 })
  tell({ again: await outcome(people(shop.database)) })
  rmSync(filling)
  const held = await people(shop.database)
  tell({ heldAll: held.length === saved || `${held.length} of ${saved}` })
  await addPerson(shop.database, { name: 'after', role: 'lead' }, { at })
  await shop.close()
  const again = await openShop(shopFolder)
  tell({ afterRestart: (await people(again.database)).length - saved })
  await again.close()
}

/** The log itself finds no room: the database must stop, and is started anew when there is some. */
async function fullUnderTheLog() {
  mount('-t', 'tmpfs', '-o', 'size=72m')
  cpSync(emptyShop, shopFolder, { recursive: true })
  const shop = await openShop(shopFolder)
  await addPerson(shop.database, { name: 'before', role: 'lead' }, { at })
  fill()
  let refusal = null
  for (let megabytes = 0; refusal === null && megabytes < 40; megabytes++) {
    const said = await outcome(
      sql`select pg_logical_emit_message(true, 'x', repeat('x', 1000000))`.execute(shop.database),
    )
    if (said !== 'done') refusal = said
  }
  tell({ refusal })
  tell({ again: await outcome(addPerson(shop.database, { name: 'lost', role: 'lead' }, { at })) })
  const both = [
    people(shop.database),
    addPerson(shop.database, { name: 'lost', role: 'lead' }, { at }),
  ]
  tell({ more: await Promise.all(both.map(outcome)) })
  rmSync(filling)
  tell({ held: (await people(shop.database)).map(({ name }) => name) })
  await addPerson(
    shop.database,
    { name: 'after', role: 'lead' },
    { at: new Date(at.getTime() + 1) },
  )
  await shop.close()
  const again = await openShop(shopFolder)
  tell({ afterRestart: (await people(again.database)).map(({ name }) => name) })
  await again.close()
}

async function fullAtTheStart() {
  mount('-t', 'tmpfs', '-o', 'size=72m')
  cpSync(emptyShop, shopFolder, { recursive: true })
  fill()
  tell({ refused: await outcome(openShop(shopFolder)) })
  rmSync(filling)
  const shop = await openShop(shopFolder)
  tell({ opened: await outcome(people(shop.database)) })
  await shop.close()
}

async function tooSmall() {
  mount('-t', 'tmpfs', '-o', 'size=20m')
  tell({ refused: await outcome(openShop(shopFolder)) })
  execFileSync('mount', ['-o', 'remount,size=80m', disk])
  const shop = await openShop(shopFolder)
  tell({
    opened: await outcome(people(shop.database)),
    unfinished: existsSync(shop.folder.unfinished),
  })
  await shop.close()
}

async function readOnly() {
  mount('-t', 'tmpfs', '-o', 'size=72m')
  cpSync(emptyShop, shopFolder, { recursive: true })
  mkdirSync(join(disk, 'empty'))
  execFileSync('mount', ['-o', 'remount,ro', disk])
  tell({ shop: await outcome(openShop(shopFolder)) })
  tell({ empty: await outcome(openShop(join(disk, 'empty'))) })
  tell({ none: await outcome(openShop(join(disk, 'none'))) })
}

async function outcome(promise) {
  try {
    await promise
    return 'done'
  } catch (error) {
    return error instanceof Failure ? [error.kind, error.message] : [error.name, error.stack]
  }
}

/** Not a byte is left. */
function fill() {
  const { bavail, bsize } = statfsSync(disk)
  try {
    writeFileSync(filling, new Uint8Array(bavail * bsize))
  } catch {
    // fuller than it said
  }
  for (const size of [4096, 1]) {
    try {
      for (;;) writeFileSync(filling, new Uint8Array(size), { flag: 'a' })
    } catch {
      // full
    }
  }
}
