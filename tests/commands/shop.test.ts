import { mkdir, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PATHS, personActsPath } from '../../src/api/paths.ts'
import type { People } from '../../src/api/people.ts'
import { everyCommand } from '../../src/cli/commands.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { reachShop } from '../../src/server/reachShop.ts'
import { openShop } from '../../src/store/openShop.ts'
import {
  newFolder,
  opened,
  PENCIL,
  postJson,
  remove,
  type Started,
  started,
} from '../server/shopRoom.ts'
import { json, refused, run } from './run.ts'

const GOOD_AT_LU = 66

type Rows = Record<string, number>

/** A shop whose soft pencil came out good at 66 light units, left by a server that was stopped. */
let place = ''
const at = (name: string): string => join(place, name)

beforeAll(async () => {
  place = await newFolder()
  const data = at('shop')
  await mkdir(data)
  const server = await started(data)
  await opened(server)
  const facts = {
    shopName: 'A room of the tests',
    fabric: '77-55',
    lastTime: { medium: 'soft pencil', doseLu: GOOD_AT_LU, outcome: 'good' },
  }
  const made = await postJson(`${server.url}${PATHS.ownShop}`, facts)
  if (made.status !== 201) throw new Error(await made.text())
  await stopped(server)
  await writeFile(at('setup.json'), '{}')
})
afterAll(() => remove(place))

async function stopped({ child, ended }: Started): Promise<void> {
  child.kill('SIGTERM')
  await ended
}

const commands = await everyCommand()
const promised = (name: string): string =>
  commands.find((command) => command.name === name)?.example.prints ?? ''
/** A sentence without its numbers and names. */
const form = (text: string): string =>
  text
    .trimEnd()
    .replaceAll(place, '')
    .replace(/[\d.-]*\d/g, '0')
    .replace(/\/?\w+\.(?:tar|csv)|\/?(again|other)\b/g, 'X')

describe.each(['opened by the command', 'through its server'] as const)('a shop %s', (how) => {
  let server: Started | null = null
  const shop = (): readonly string[] => ['--shop', at('shop')]
  beforeAll(async () => {
    if (how === 'opened by the command') return
    server = await started(at('shop'))
    await opened(server)
  })
  afterAll(async () => {
    if (server !== null) await stopped(server)
  })

  test('is read through and found sound', async () => {
    const answer = await json(['check', ...shop()])
    expect(answer).toMatchObject({ kind: 'check', verdict: 'sound', durable: true, dangling: [] })
    expect((answer['rows'] as Record<string, number>)['reading']).toBe(1)
    if (server === null) return
    const { out } = await run(['check', ...shop()])
    expect(form(out)).toBe(form(promised('check')))
  })

  test('is backed up whole, never over a file that is there, and restored into another folder', async () => {
    const tar = at(`${how.split(' ')[0]}.tar`)
    const { out } = await run(['backup', '--out', tar, ...shop()])
    expect(form(out)).toBe(form(promised('backup')))
    expect(await refused(['backup', '--out', tar, ...shop()])).toMatchObject({
      exit: 2,
      kind: 'already there',
    })
    const before = await readFile(tar)
    expect(await readFile(tar)).toEqual(before)
    if (server !== null) return // restoring is the same whoever wrote the file
    const again = at('again')
    const restored = await run(['restore', tar, '--shop', again])
    expect(form(restored.out)).toBe(form(promised('restore')))
    const [one, other] = [await json(['check', ...shop()]), await json(['check', '--shop', again])]
    const counts = (answer: Record<string, unknown>) => {
      const { upkeep: _, ...rows } = answer['rows'] as Record<string, number>
      return rows
    }
    expect(counts(other)).toEqual(counts(one))
    expect(await refused(['restore', tar, '--shop', again])).toMatchObject({
      exit: 2,
      kind: 'already there',
    })
    await rm(again, { recursive: true })
  })

  test('is exported as JSON and as a table that import reads, and imports old notes', async () => {
    const [records, table] = [at(`${how.split(' ')[0]}.json`), at(`${how.split(' ')[0]}.csv`)]
    expect(await json(['export', '--out', records, ...shop()])).toMatchObject({ form: 'json' })
    const whole = JSON.parse(await readFile(records, 'utf8')) as {
      demo: boolean
      tables: Record<string, readonly Record<string, unknown>[]>
    }
    expect(whole.demo).toBe(false)
    expect(whole.tables['shop']).toMatchObject([{ name: 'A room of the tests' }])
    if (server === null) return
    // what people sign in by is no record of the shop's work
    const counted = (await json(['check', ...shop()]))['rows'] as Rows
    const { upkeep: _, credential: _secret, session: _signedIn, ...rows } = counted
    const { upkeep: _notes, ...exported } = whole.tables
    expect(
      Object.fromEntries(Object.entries(exported).map(([name, { length }]) => [name, length])),
    ).toEqual(rows)
    const { out } = await run(['export', '--out', table, ...shop()])
    expect(form(out)).toBe(form(promised('export')))
    // What was exported the shop knows already; a line of another day it does not.
    const known = await readFile(table, 'utf8')
    expect(known.split('\r\n').slice(1, 2).join()).toMatch(/^\d{4}-\d\d-\d\d,soft pencil,66,good,/)
    const again = await json(['import', table, ...shop()])
    expect(again).toMatchObject({ taken: 0, lines: rows['reading'] })
    await writeFile(table, `${known}2026-03-02,soft pencil,70,"good",,,,,,"=a ""note"", told"\r\n`)
    const dry = ['import', table, '--dry-run', ...shop()]
    expect(await json(dry)).toMatchObject({ taken: 1, dryRun: true })
    const [first = ''] = (await run(dry)).out.split('\n')
    expect(form(first)).toBe(form(promised('import')))
    expect(await json(['import', table, ...shop()])).toMatchObject({ taken: 1, dryRun: false })
    expect(await json(dry)).toMatchObject({ taken: 0 })
    await run(['export', '--out', table, '--force', ...shop()])
    expect(await readFile(table, 'utf8')).toContain(`"'=a ""note"", told"`)
  })

  test('gives a film its dose by what was found there; the setup file has the last word', async () => {
    const film = ['dose', PENCIL, '--setup', at('setup.json'), '--marks-above', '0.9']
    const usual = await json(film)
    const here = await json([...film, ...shop()])
    // 66 where 40 is usual: all doses move up together, by less than 66/40 as one word teaches little
    const ratio = Number(here['lowLu']) / Number(usual['lowLu'])
    expect(ratio).toBeGreaterThan(1.05)
    expect(ratio).toBeLessThan(GOOD_AT_LU / 40 + 0.3)
    if (server === null) return // what the server is asked, the command asks in the same way
    await writeFile(at('own.json'), '{"emulsion": {"gelDoseLu": 9}}')
    const own = ['dose', PENCIL, '--setup', at('own.json'), '--marks-above', '0.9', ...shop()]
    const bare = Number((await json(own))['lowLu'])
    // hold = gel · exp(a/Dp); the shop's coat is the usual one on 77-55, a 20 um, Dp 37 um
    near(bare, 9 * Math.exp(20 / 37), { within: 0.1, because: 'the file says the skin dose' })
    const both = await json([...film, '--medium', 'soft pencil', ...shop()])
    expect(both['medium']).toMatchObject({ name: 'soft pencil' })
    expect((await run([...film, '--medium', 'soft pencil', ...shop()])).out).toMatch(
      /For soft pencil in this shop: \d+/,
    )
  })
})

test('a command waits for a server that still opens its shop', async () => {
  const server = await started(at('shop')) // it has said where it is, and not that it is ready
  const answer = await run(['check', '--shop', at('shop'), '--json'])
  await stopped(server)
  expect(answer).toMatchObject({ exit: 0, err: '' })
})

test('of two commands at once the second waits for the first', async () => {
  const check = ['check', '--shop', at('shop')]
  const both = await Promise.all([json(check), json(check)])
  expect(both).toMatchObject([{ verdict: 'sound' }, { verdict: 'sound' }])
})

test('a shop that another has and does not answer for is said in one sentence', async () => {
  const other = await openShop(at('shop'))
  const reached = reachShop(at('shop'), { patienceMs: 0, use: () => Promise.resolve() })
  await expect(reached).rejects.toMatchObject({
    kind: 'shop in use',
    message: `Another Yellowroom has the shop in "${at('shop')}" open: use that one, or stop it first.`,
  })
  await other.close()
})

test('notes that are too long are told how long they may be', async () => {
  await writeFile(at('long.csv'), 'date,medium,dose,outcome\n'.padEnd(900_001))
  const { exit, message } = await refused(['import', at('long.csv'), '--shop', at('shop')])
  expect([exit, message.includes('is longer than 0.9 megabytes')]).toEqual([2, true])
})

test('what is no shop, no backup or no medium is said, and nothing is made', async () => {
  const nowhere = at('nowhere')
  for (const args of [['check'], ['backup', '--out', at('none.tar')]]) {
    expect(await refused([...args, '--shop', nowhere])).toMatchObject({
      exit: 2,
      kind: 'missing file',
    })
  }
  await expect(stat(nowhere)).rejects.toThrow('ENOENT')
  await expect(stat(at('none.tar'))).rejects.toThrow('ENOENT')
  expect(await refused(['restore', PENCIL, '--shop', nowhere])).toMatchObject({
    exit: 2,
    kind: 'unreadable file',
  })
  expect(await refused(['export', '--out', at('shop.xls'), '--shop', at('shop')])).toMatchObject({
    exit: 2,
    field: 'out',
  })
  await writeFile(at('other.csv'), 'name,colour\nA,blue\n')
  expect(await refused(['import', at('other.csv'), '--shop', at('shop')])).toMatchObject({
    exit: 2,
    message: expect.stringContaining('the first line must name the columns') as string,
  })
  const film = ['dose', PENCIL, '--setup', at('setup.json'), '--medium', 'chalk']
  expect((await refused(film)).message).toContain('--medium needs --shop DIR')
  expect((await refused([...film, '--shop', at('shop')])).message).toContain('no such medium')
})

test('a backup and exports are for those who know the token; a lost password is replaced', async () => {
  const server = await started(at('shop'))
  await opened(server)
  for (const path of [PATHS.backup, PATHS.exportRecords, PATHS.exportNotes]) {
    expect((await fetch(`${server.url}${path}`)).status).toBe(404)
  }
  const headers = { authorization: 'Bearer guessed' }
  expect((await fetch(`${server.url}${PATHS.backup}`, { headers })).status).toBe(401)
  const lead = { name: 'Lea Ward', role: 'lead' }
  const { people } = (await (await postJson(`${server.url}${PATHS.people}`, lead)).json()) as People
  const first = { kind: 'password', password: 'words that are lost' }
  const id = people.find(({ name }) => name === 'Lea Ward')?.id ?? ''
  expect((await postJson(`${server.url}${personActsPath(id)}`, first)).status).toBe(200)
  const line = ['password', 'lea ward', '--shop', at('shop')]
  const { out } = await run(line)
  const [, word = ''] =
    /^Lea Ward signs in with ((?:[0-9a-z]{4}-?){4}) from now on\.\n$/.exec(out) ?? []
  const signIn = (password: string) =>
    postJson(`${server.url}${PATHS.signIn}`, { name: 'Lea Ward', password })
  expect([word.length, (await signIn(word)).status]).toEqual([19, 200])
  expect((await signIn(first.password)).status).toBe(422)
  expect(await refused(['password', 'Lee Ward', '--shop', at('shop')])).toMatchObject({
    exit: 2,
    field: 'NAME',
    message: 'No lead or technician of this shop is called Lee Ward. Did you mean Lea Ward?',
  })
  await stopped(server)
})
