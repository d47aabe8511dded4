import { type ChildProcess, spawn } from 'node:child_process'
import { constants } from 'node:fs'
import { access, cp, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Film, FilmForecast } from '../../src/api/films.ts'
import { PATHS } from '../../src/api/paths.ts'
import { QUICK_START } from '../store/quickStart.ts'

const MAIN = new URL('../../dist/run/main.js', import.meta.url)
const START = `import('${MAIN.href}')
  .then(({ main }) => main(['start'], process))
  .then((exit) => (process.exitCode = exit))`

export const PENCIL: string = fileURLToPath(
  new URL('../../docs/example/pencil.png', import.meta.url),
)

/** A started Yellowroom in a process of its own. */
export type Started = Readonly<{
  child: ChildProcess
  url: string
  out: () => string
  err: () => string
  ended: Promise<number | null>
}>

/** A new folder of the test's own, in memory where there is one: a kill loses nothing there either. */
export async function newFolder(): Promise<string> {
  const memory = await access('/dev/shm', constants.W_OK).then(
    () => '/dev/shm',
    () => null,
  )
  return mkdtemp(join(memory ?? tmpdir(), 'yellowroom-server-'))
}

/** A copy of a shop that is closed: quicker than founding another. */
export async function copyOf(folder: string): Promise<string> {
  const copy = await newFolder()
  await cp(folder, copy, { recursive: true })
  return copy
}

export function remove(folder: string): Promise<void> {
  return rm(folder, { recursive: true, force: true, maxRetries: 5 })
}

/** Starts on a free port and waits for the ready line, or for the end. */
export async function started(data: string): Promise<Started> {
  const child = spawn(process.execPath, [...QUICK_START, '-e', START], {
    env: { ...process.env, YELLOWROOM_DATA: data, PORT: '0', HOST: '127.0.0.1' },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let [out, err] = ['', '']
  child.stderr.on('data', (part: Buffer) => (err += part.toString()))
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve))
  const url = await new Promise<string>((resolve) => {
    child.stdout.on('data', (part: Buffer) => {
      out += part.toString()
      const [, address] = /^Yellowroom is at (http\S+)\n/.exec(out) ?? []
      if (address !== undefined) resolve(address)
    })
    child.on('close', () => resolve(''))
  })
  return { child, url, out: () => out, err: () => err, ended }
}

export async function until<Value>(
  ask: () => Promise<Value | null>,
  what: string,
  withinMs = 120_000,
): Promise<Value> {
  const end = performance.now() + withinMs
  while (performance.now() < end) {
    const value = await ask()
    if (value !== null) return value
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
  throw new Error(`${what} did not come about`)
}

/** Waits until the shop is open. @throws Error with the reason when it cannot be */
export function opened({ url }: Pick<Started, 'url'>): Promise<true> {
  return until(async () => {
    const health = (await asJson(`${url}${PATHS.health}`)) as { status: string; message: string }
    if (health.status === 'failed') throw new Error(health.message)
    return health.status === 'ready' ? true : null
  }, 'opening')
}

export async function asJson(url: string, init: RequestInit = {}): Promise<unknown> {
  return (await fetch(url, init)).json()
}

export function postJson(url: string, body: unknown = {}): Promise<Response> {
  const headers = { 'content-type': 'application/json' }
  return fetch(url, { method: 'POST', headers, body: JSON.stringify(body) })
}

/** How a film can be asked after: over the net, or in this process. */
export type Asks = (path: string, init?: RequestInit) => Promise<Response>

export async function sent(
  ask: Asks,
  { name, bytes, query = '' }: Readonly<{ name: string; bytes: Uint8Array; query?: string }>,
): Promise<Film> {
  const headers = { 'x-file-name': encodeURIComponent(name) }
  const body = new Uint8Array(bytes)
  const response = await ask(`${PATHS.films}${query}`, { method: 'POST', headers, body })
  if (response.status !== 202) throw new Error(await response.text())
  return (await response.json()) as Film
}

export function settledFilm(ask: Asks, id: string): Promise<Film> {
  return until(async () => {
    const film = (await (await ask(`${PATHS.films}/${id}`)).json()) as Film
    return film.status === 'ready' || film.status === 'failed' ? film : null
  }, `reading of ${id}`)
}

export function readyForecast(ask: Asks, id: string, query = ''): Promise<FilmForecast> {
  return until(async () => {
    const path = `${PATHS.films}/${id}/forecast${query}`
    const forecast = (await (await ask(path)).json()) as FilmForecast
    return forecast.status === 'ready' || forecast.status === 'failed' ? forecast : null
  }, `forecast of ${id}`)
}
