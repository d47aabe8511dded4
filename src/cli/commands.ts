import type { Command } from './command.ts'
import { backup } from './commands/backup.ts'
import { calibrate } from './commands/calibrate.ts'
import { check } from './commands/check.ts'
import { dose } from './commands/dose.ts'
import { exportShop } from './commands/export.ts'
import { fabric } from './commands/fabric.ts'
import { films } from './commands/films.ts'
import { forecast } from './commands/forecast.ts'
import { commandNamed, helpOn } from './commands/help.ts'
import { importNotes } from './commands/import.ts'
import { inks } from './commands/inks.ts'
import { inspect } from './commands/inspect.ts'
import { mat } from './commands/mat.ts'
import { moire } from './commands/moire.ts'
import { place } from './commands/place.ts'
import { read } from './commands/read.ts'
import { restore } from './commands/restore.ts'
import { session } from './commands/session.ts'
import { start } from './commands/start.ts'
import { strip } from './commands/strip.ts'
import { wedge } from './commands/wedge.ts'

/** What computes. */
const COMPUTING: readonly Command[] = [
  forecast,
  dose,
  films,
  inks,
  fabric,
  moire,
  wedge,
  strip,
  calibrate,
  mat,
  read,
  inspect,
  place,
  session,
]

const WORKING: readonly Command[] = [
  ...COMPUTING,
  start,
  backup,
  restore,
  exportShop,
  importNotes,
  check,
]

/** Every command that works, in the order in which help lists them. */
export const COMMANDS: readonly Command[] = [...WORKING, helpOn(WORKING)]

/** @throws Failure with the nearest name */
export function findCommand(written: string): Command {
  return commandNamed(COMMANDS, written)
}
