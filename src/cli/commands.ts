import type { Command } from './command.ts'
import { dose } from './commands/dose.ts'
import { fabric } from './commands/fabric.ts'
import { forecast } from './commands/forecast.ts'
import { commandNamed, helpOn } from './commands/help.ts'
import { strip } from './commands/strip.ts'
import { wedge } from './commands/wedge.ts'

/** Every command that works, in the order in which help lists them. */
const WORKING: readonly Command[] = [forecast, dose, fabric, wedge, strip]

export const COMMANDS: readonly Command[] = [...WORKING, helpOn(WORKING)]

/** @throws Failure with the nearest name */
export function findCommand(written: string): Command {
  return commandNamed(COMMANDS, written)
}
