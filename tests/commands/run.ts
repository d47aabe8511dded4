import { main } from '../../src/cli/main.ts'

export type Ran = Readonly<{ exit: number; out: string; err: string }>

/** Runs a command line in this process and catches what it says. */
export async function run(
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<Ran> {
  let [out, err] = ['', '']
  const exit = await main(args, {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
    env,
  })
  return { exit, out, err }
}

/** The one JSON value on stdout. */
export async function json(args: readonly string[]): Promise<Record<string, unknown>> {
  const { exit, out } = await run([...args, '--json'])
  if (exit !== 0) throw new Error(`exit ${exit}: ${out}`)
  return JSON.parse(out) as Record<string, unknown>
}

export type Refused = Readonly<{ exit: number; kind: string; message: string; field?: string }>

/** What is refused: the sentence on stderr and the record on stdout must be the same. */
export async function refused(args: readonly string[]): Promise<Refused> {
  const { exit, out, err } = await run([...args, '--json'])
  const { error } = JSON.parse(out) as { error: Omit<Refused, 'exit'> }
  if (`${error.message}\n` !== err.split('\n').slice(-2).join('\n')) {
    throw new Error(`stderr says ${err}, stdout ${error.message}`)
  }
  return { exit, ...error }
}
