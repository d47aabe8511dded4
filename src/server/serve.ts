import type { Server } from 'node:http'
import { serve } from '@hono/node-server'
import { Failure } from '../core/failure.ts'
import { yellowroomApp } from './app.ts'
import type { ShownCommand } from './shown.ts'

export type Door = Readonly<{ host: string; port: number }>

/** The running server; `stopped` ends with it. */
export type Running = Readonly<{ url: string; stop: () => void; stopped: Promise<void> }>

/** What is still being answered when the server is told to stop gets this long. */
const GRACE_MS = 1000

/**
 * Opens the door and answers until `stop`.
 *
 * @param door port 0 takes any that is free
 * @throws Failure 'world failed' when the port is taken or may not be had, 'wrong input' for a host
 * that is none of this computer's
 */
export async function serveYellowroom(
  commands: readonly ShownCommand[],
  door: Door,
): Promise<Running> {
  const { fetch } = yellowroomApp(commands)
  return new Promise((resolve, reject) => {
    const server = serve({ fetch, port: door.port, hostname: door.host }, ({ address, port }) => {
      const host = address.includes(':') ? `[${address}]` : address
      resolve({
        url: `http://${host}:${port}`,
        stop: () => stop(server as Server),
        stopped: new Promise((ended) => server.once('close', () => ended())),
      })
    })
    server.once('error', (cause: Error) => reject(refused(door, cause)))
  })
}

function stop(server: Server): void {
  server.close()
  server.closeIdleConnections()
  setTimeout(() => server.closeAllConnections(), GRACE_MS).unref()
}

function refused({ host, port }: Door, cause: Error & { code?: string }): Failure {
  switch (cause.code) {
    case 'EADDRINUSE': {
      const message = `Port ${port} is taken, perhaps by another Yellowroom: stop that one, or start with PORT=${port + 1}.`
      return new Failure('world failed', message, { field: 'PORT', cause })
    }
    case 'EACCES': {
      const message = `Port ${port} is kept for the system: start with PORT=4680, or with another above 1023.`
      return new Failure('world failed', message, { field: 'PORT', cause })
    }
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN': {
      const message = `HOST must be an address of this computer, like 127.0.0.1. It is '${host}'.`
      return new Failure('wrong input', message, { field: 'HOST', cause })
    }
    default: {
      const message = `The server could not start (${cause.code ?? cause.message}): try another PORT.`
      return new Failure('world failed', message, { cause })
    }
  }
}
