import { Failure } from '../../core/failure.ts'
import { isIn, type Range, rangeWords } from '../../core/units/range.ts'
import type { Door } from '../../server/notListening.ts'
import type { Running } from '../../server/serve.ts'
import { beginShop } from '../../store/beginShop.ts'
import { JSON_SWITCH } from '../arguments.ts'
import type { Command, Io } from '../command.ts'
import { dataFolder } from '../dataFolder.ts'
import { shortened } from '../reads.ts'

const PORT: Range = { name: 'PORT', low: 0, high: 65535, unit: '', whole: true }
const PARENT_EVERY_MS = 500
const USUAL: Door = { host: '127.0.0.1', port: 4680 }

/** The command that serves a shop's pages. */
export const start: Command = {
  name: 'start',
  summary: 'serve the pages of a shop, until it is stopped with Ctrl+C',
  places: [],
  options: [],
  notes: [
    `PORT and HOST in the environment say where; ${USUAL.port} and ${USUAL.host} unless given, so only this computer can see it.`,
    'Others reach it by its address, or by names of their own net like press.local; YELLOWROOM_NAMES says by which more, with commas between.',
    'YELLOWROOM_DATA names the folder of the shop; one folder is one shop, and an empty one becomes one.',
  ],
  example: {
    line: 'start',
    prints: `Yellowroom is at http://${USUAL.host}:${USUAL.port}`,
  },
  run: async (given, io) => {
    const door = doorFrom(io.env)
    const names = namesFrom(io.env)
    const data = dataFolder(io.env)
    const begun = await beginShop(data, { databaseUrl: io.env['DATABASE_URL'] })
    const { serveYellowroom } = await import('../../server/serve.ts')
    const running = await serveYellowroom({
      door,
      names,
      begun,
      onTrouble: (sentence) => io.stderr.write(`${sentence}\n`),
    })
    sayReady(running, { io, asJson: given.has(JSON_SWITCH), data })
    await untilStopped(running, { underNpm: io.env['npm_lifecycle_event'] !== undefined })
    return null
  },
}

function doorFrom({ HOST, PORT: port }: Io['env']): Door {
  const host = HOST === undefined || HOST === '' ? USUAL.host : HOST
  if (port === undefined || port === '') return { ...USUAL, host }
  if (!/^\d+$/.test(port) || !isIn(Number(port), PORT)) {
    const message = `PORT must be ${rangeWords(PORT)}, like ${USUAL.port}. It is '${shortened(port)}'.`
    throw new Failure('wrong input', message, { field: 'PORT' })
  }
  return { host, port: Number(port) }
}

function namesFrom({ YELLOWROOM_NAMES: names = '' }: Io['env']): readonly string[] {
  const all = names
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
  const strange = all.find((name) => !/^[\w-]+(\.[\w-]+)*$/.test(name))
  if (strange === undefined) return all
  const message = `YELLOWROOM_NAMES must be names like press.example.edu, with commas between and without http:// or a port. It holds '${shortened(strange)}'.`
  throw new Failure('wrong input', message, { field: 'YELLOWROOM_NAMES' })
}

function sayReady(
  { url }: Running,
  { io, asJson, data }: Readonly<{ io: Io; asJson: boolean; data: string }>,
): void {
  io.stdout.write(
    `${asJson ? JSON.stringify({ kind: 'start', url, data }) : `Yellowroom is at ${url}`}\n`,
  )
  io.stderr.write(`The shop is kept in ${data}\n`)
}

/**
 * Ends with the server. Under npm a shell stands between npm and us, and a signal sent to npm ends
 * that shell without reaching us: then the parent's going is the signal.
 */
async function untilStopped(
  { stop, stopped }: Running,
  { underNpm }: Readonly<{ underNpm: boolean }>,
): Promise<void> {
  const signals = ['SIGINT', 'SIGTERM'] as const
  for (const signal of signals) process.once(signal, stop)
  const parent = process.ppid
  const watch = setInterval(() => {
    if (underNpm && process.ppid !== parent) stop()
  }, PARENT_EVERY_MS)
  await stopped
  clearInterval(watch)
  for (const signal of signals) process.removeListener(signal, stop)
}
