import { Failure } from '../../core/failure.ts'

/**
 * A file as it comes: just as long as it says, and not begun when that is too long.
 *
 * @throws Failure 'too large'; 'wrong input' for a file that broke off
 */
export async function* fileBody(
  request: Request,
  { mostBytes }: Readonly<{ mostBytes: number }>,
): AsyncGenerator<Uint8Array> {
  const said = request.headers.get('content-length')
  if (Number(said ?? 0) > mostBytes) throw tooLarge(mostBytes)
  let size = 0
  if (request.body !== null) {
    try {
      for await (const part of request.body as unknown as AsyncIterable<Uint8Array>) {
        size += part.length
        yield part
      }
    } catch (cause) {
      throw brokeOff(cause)
    }
  }
  if (said !== null && Number(said) !== size) throw brokeOff(null)
}

const LONGEST_NAME = 120

/**
 * What the file was called where it came from, from the header x-file-name: no path, nothing that
 * moves a cursor, not empty.
 */
export function fileNameOf(request: Request, { unnamed }: Readonly<{ unnamed: string }>): string {
  const plain = decoded(request.headers.get('x-file-name') ?? '')
    .replace(/^.*[/\\]/s, '')
    .replace(/[\p{C}\s]+/gu, ' ')
    .trim()
  const shortened = [...plain].slice(0, LONGEST_NAME).join('').trim()
  return shortened === '' ? unnamed : shortened
}

/** A file's name for people. */
export function withoutEnding(name: string): string {
  return name.replace(/(?<=.)\.\w{1,5}$/, '')
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}

function tooLarge(mostBytes: number): Failure {
  const message = `The file has more than ${mostBytes / 2 ** 20} MB, and that is the most that is taken: save it with compression or with fewer pixels.`
  return new Failure('too large', message)
}

function brokeOff(cause: unknown): Failure {
  return new Failure('wrong input', 'The file broke off on its way here: send it again.', { cause })
}
