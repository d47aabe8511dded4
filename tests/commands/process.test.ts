import { spawn, spawnSync } from 'node:child_process'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import type { AddressInfo } from 'node:net'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { emptyShopIn } from '../store/scratch.ts'

const YELLOWROOM = fileURLToPath(new URL('../../bin/yellowroom.mjs', import.meta.url))

/** A shop's folder for whatever is started here, which is made and never opened for long. */
let data = ''
beforeAll(async () => {
  data = await emptyShopIn(await mkdtemp(join(tmpdir(), 'yellowroom-process-')))
})
afterAll(() => rm(data, { recursive: true, force: true }))

type Ended = Readonly<{ code: number | null; out: string; err: string }>

function start(args: readonly string[], env: Readonly<Record<string, string>> = {}) {
  const child = spawn(process.execPath, [YELLOWROOM, ...args], {
    env: { ...process.env, YELLOWROOM_DATA: data, ...env },
  })
  let [out, err] = ['', '']
  child.stdout.on('data', (part: Buffer) => (out += part.toString()))
  child.stderr.on('data', (part: Buffer) => (err += part.toString()))
  const ended = new Promise<Ended>((resolve) => {
    child.on('close', (code) => resolve({ code, out, err }))
  })
  const firstLine = new Promise<string>((resolve) => {
    child.stdout.on('data', () => out.includes('\n') && resolve(out))
    child.on('close', () => resolve(out))
  })
  return { child, ended, firstLine }
}

const run = (...args: string[]): Promise<Ended> => start(args).ended

/** What was saved since the last build is built first, and only then is stderr silent. */
beforeAll(() => run('help'))

describe('the program itself', () => {
  test('answers with 0, refuses with 2, one JSON value on stdout and nothing else', async () => {
    const answered = await run('fabric', '90-48', '--json')
    expect(answered).toMatchObject({ code: 0, err: '' })
    expect(JSON.parse(answered.out)).toMatchObject({ kind: 'fabric', finestLineUm: 10_000 / 90 })
    const refused = await run('fabric', '90', '--json')
    expect(refused.code).toBe(2)
    expect(JSON.parse(refused.out)).toMatchObject({ error: { kind: 'wrong input', field: 'NAME' } })
    expect(refused.err.trim().split('\n')).toHaveLength(1)
  })

  test('a reader that stops reading is no failure', async () => {
    const { child, ended } = start(['help', 'glossary'])
    child.stdout.destroy()
    expect(await ended).toMatchObject({ code: 0, err: '' })
  })

  // Linux alone has a device that is always full.
  test.skipIf(process.platform !== 'linux')(
    'a full disk under the answer is exit 3, in one sentence',
    () => {
      const line = `"${process.execPath}" "${YELLOWROOM}" fabric 90-48 --json > /dev/full`
      const { status, stderr } = spawnSync('sh', ['-c', line], { encoding: 'utf8' })
      expect([status, stderr]).toEqual([
        3,
        'The answer cannot be written where it is sent (ENOSPC): make room, or send it elsewhere.\n',
      ])
    },
  )

  test('ended half way it leaves no temporary file and no half-written picture', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'yellowroom-ended-'))
    const film = ['docs/example/pencil.png', '--setup', 'docs/example/setup.json', '--dose', '40']
    const env = { TMPDIR: folder, TEMP: folder, TMP: folder }
    const { child, ended } = start(['forecast', ...film, '--classes', join(folder, 'out.png')], env)
    await expect.poll(() => readdir(folder), { interval: 2, timeout: 20_000 }).not.toEqual([])
    child.kill('SIGTERM')
    const { code } = await ended
    const left = await readdir(folder)
    await rm(folder, { recursive: true })
    expect([code, left]).toEqual([143, []])
  })

  test('runs from any folder', async () => {
    const child = spawn(process.execPath, [YELLOWROOM, 'help'], { cwd: '/' })
    expect(await new Promise((resolve) => child.on('close', resolve))).toBe(0)
  })
})

describe('start', () => {
  test.each(['SIGTERM', 'SIGINT'] as const)(
    'says where it is in one line, answers, stops at %s',
    async (signal) => {
      const { child, ended, firstLine } = start(['start'], { PORT: '0', HOST: '127.0.0.1' })
      const line = await firstLine
      const [, url = ''] = /^Yellowroom is at (http:\/\/127\.0\.0\.1:\d+)\n$/.exec(line) ?? []
      const page = await fetch(url)
      expect(await page.text()).toContain('<title>Yellowroom</title>')
      expect(await (await fetch(`${url}/api/health`)).json()).toMatchObject({ kind: 'health' })
      child.kill(signal)
      expect(await ended).toEqual({ code: 0, out: line, err: `The shop is kept in ${data}\n` })
      await expect(fetch(url)).rejects.toThrow()
    },
  )

  // Other systems have no shell that stands between and no new parent to see.
  test.skipIf(process.platform === 'win32')(
    'under npm it stops when the shell that npm put between is gone',
    async () => {
      const shell = spawn('sh', ['-c', `"${process.execPath}" "${YELLOWROOM}" start; true`], {
        env: {
          ...process.env,
          YELLOWROOM_DATA: data,
          PORT: '0',
          HOST: '127.0.0.1',
          npm_lifecycle_event: 'start',
        },
      })
      const url = await new Promise<string>((resolve) => {
        shell.stdout.on('data', (part: Buffer) =>
          resolve(/http\S+/.exec(part.toString())?.[0] ?? ''),
        )
      })
      expect((await fetch(url)).status).toBe(200)
      shell.kill('SIGTERM')
      await new Promise((resolve) => shell.once('exit', resolve))
      await expect
        .poll(
          () =>
            fetch(url).then(
              () => 'answers',
              () => 'gone',
            ),
          { timeout: 10_000 },
        )
        .toBe('gone')
    },
  )

  test('a port that is taken is said in one sentence, exit 3', async () => {
    const other = createServer().listen(0, '127.0.0.1')
    await new Promise((resolve) => other.once('listening', resolve))
    const { port } = other.address() as AddressInfo
    // a shop of its own: the one before may still be closing
    const folder = await emptyShopIn(await mkdtemp(join(data, 'other-')))
    const door = { PORT: String(port), HOST: '127.0.0.1', YELLOWROOM_DATA: folder }
    const ended = await start(['start', '--json'], door).ended
    other.close()
    expect(ended.code).toBe(3)
    expect(ended.err).toBe(
      `Port ${port} is taken, perhaps by another Yellowroom: stop that one, or start with PORT=${port + 1}.\n`,
    )
    expect(JSON.parse(ended.out)).toMatchObject({ error: { kind: 'world failed', field: 'PORT' } })
  })

  test.each(['46o0', '-1', '65536', '80.5', '0x50'])('PORT=%s is wrong input', async (PORT) => {
    const ended = await start(['start'], { PORT }).ended
    expect(ended).toMatchObject({ code: 2, out: '' })
    expect(ended.err).toContain('PORT must be a whole number from 0 to 65535, like 4680.')
  })

  test('YELLOWROOM_NAMES with an address in place of a name is wrong input', async () => {
    const env = { PORT: '0', YELLOWROOM_NAMES: 'press.example.edu, http://press.example.edu' }
    const ended = await start(['start'], env).ended
    expect(ended.code).toBe(2)
    expect(ended.err).toContain("holds 'http://press.example.edu'")
  })

  test('a HOST that is not this computer is wrong input', async () => {
    const ended = await start(['start'], { PORT: '0', HOST: '192.0.2.1' }).ended
    expect(ended.code).toBe(2)
    expect(ended.err).toContain('HOST must be an address of this computer')
  })
})
