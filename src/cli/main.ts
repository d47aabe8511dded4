import { ANSWERS, isFailure } from '../core/failure.ts'
import { HELP_SWITCH, JSON_SWITCH, readArguments } from './arguments.ts'
import type { Answer, Io } from './command.ts'
import { commandHelp } from './commands/help.ts'
import { findCommand } from './commands.ts'

const TRACE = 'YELLOWROOM_TRACE'

/**
 * Runs one command line.
 *
 * @param args what stands after `yellowroom`
 * @returns the exit code: 0 answered, 2 wrong input, 3 the world failed, 1 a bug of ours
 */
export async function main(args: readonly string[], io: Io): Promise<0 | 1 | 2 | 3> {
  const asJson = wantsJson(args)
  try {
    const answer = await answerTo(args, io)
    if (answer !== null) {
      const { record, text } = answer
      io.stdout.write(asJson ? `${jsonLine(record)}\n` : `${text}\n`)
    }
    return 0
  } catch (error) {
    const { exit, kind, message, field } = told(error)
    io.stderr.write(`${message}\n`)
    if (exit === 1 && io.env[TRACE] === '1') {
      io.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`)
    }
    if (asJson) {
      const named = field === undefined ? {} : { field }
      io.stdout.write(`${jsonLine({ error: { kind, message, ...named } })}\n`)
    }
    return exit
  }
}

async function answerTo(args: readonly string[], io: Io): Promise<Answer | null> {
  const [name = 'help', ...rest] = commandFirst(args)
  const command = await findCommand(name)
  if (asksForHelp(rest)) return commandHelp(command)
  return command.run(readArguments(command, rest), io)
}

/** `--json fabric 90-48` means `fabric 90-48 --json`; `--help` alone means `help`. */
function commandFirst(args: readonly string[]): readonly string[] {
  const at = args.findIndex((word) => word !== `--${JSON_SWITCH.name}`)
  if (at === -1) return ['help', ...args]
  const [name = '', ...rest] = args.slice(at)
  const before = args.slice(0, at)
  if (name === `--${HELP_SWITCH.name}` || name === '-h') return ['help', ...before, ...rest]
  return [name, ...before, ...rest]
}

function asksForHelp(args: readonly string[]): boolean {
  return beforeTerminator(args).some((word) => word === `--${HELP_SWITCH.name}` || word === '-h')
}

function wantsJson(args: readonly string[]): boolean {
  return beforeTerminator(args).includes(`--${JSON_SWITCH.name}`)
}

function beforeTerminator(args: readonly string[]): readonly string[] {
  const end = args.indexOf('--')
  return end === -1 ? args : args.slice(0, end)
}

type Told = Readonly<{ exit: 1 | 2 | 3; kind: string; message: string; field?: string | undefined }>

function told(error: unknown): Told {
  if (isFailure(error)) {
    const { kind, message, field } = error
    return { exit: ANSWERS[kind].exit, kind, message: onOneLine(message), field }
  }
  const what = error instanceof Error ? error.message : String(error)
  const message = `This is a fault in Yellowroom, not in what you gave it: ${onOneLine(what)} (${TRACE}=1 shows where).`
  return { exit: 1, kind: 'bug', message }
}

/** What was typed may come back in a sentence: nothing in it may move the cursor or break the line. */
function onOneLine(message: string): string {
  return message.replace(/[\p{C}\s]+/gu, ' ')
}

/** @throws RangeError for a number JSON cannot carry: it would silently become null */
function jsonLine(record: Answer['record']): string {
  return JSON.stringify(record, (key, value: unknown) => {
    if (typeof value === 'number' && !Number.isFinite(value)) {
      throw new RangeError(`${key}: expected a finite number, got ${value}`)
    }
    return value
  })
}
