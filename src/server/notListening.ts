import { Failure } from '../core/failure.ts'

/** Where a server listens. */
export type Door = Readonly<{ host: string; port: number }>

/** Why the door could not be opened, as a sentence. */
export function notListening({ host, port }: Door, cause: Error & { code?: string }): Failure {
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
