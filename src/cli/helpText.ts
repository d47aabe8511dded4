import type { Option, Place } from './arguments.ts'
import { HELP_SWITCH, JSON_SWITCH } from './arguments.ts'
import type { Command } from './command.ts'

/** How a command is called from the folder; after `npm link` the last word alone does. */
export const CALLED = 'node bin/yellowroom.mjs'

const WIDTH = 96

export function listText(commands: readonly Command[]): string {
  const widest = Math.max(...commands.map(({ name }) => name.length))
  return [
    'Yellowroom: from artwork to a finished screen-print edition, with screens that are right the',
    'first time.',
    '',
    `${CALLED} COMMAND …`,
    '',
    ...commands.map(({ name, summary }) => `  ${name.padEnd(widest)}  ${summary}`),
    '',
    "'help COMMAND' shows what a command takes, with an example. 'help glossary' explains the words.",
    'UV light, chemicals and pressure water can hurt: equipment manuals, safety data sheets and local',
    'codes come first.',
  ].join('\n')
}

export function commandText(command: Command): string {
  const { name, summary, places, options, notes = [], example } = command
  const all = [...options, JSON_SWITCH, HELP_SWITCH]
  const rows = [
    ...places.map((place) => [place.name, place.about + neededWord(place)] as const),
    ...all.map((option) => [shownOption(option), option.about + neededWord(option)] as const),
  ]
  const widest = Math.max(...rows.map(([shown]) => shown.length))
  return [
    `${name}: ${summary}`,
    '',
    `${CALLED} ${usage(command)}`,
    '',
    ...rows.flatMap(([shown, about]) => hung(`  ${shown.padEnd(widest)}  `, about)),
    ...notes.flatMap((note) => ['', ...hung('', note)]),
    '',
    'Example:',
    `  ${CALLED} ${example.line}`,
    ...example.prints.split('\n').map((line) => `  ${line}`.trimEnd()),
  ].join('\n')
}

/** `forecast FILM --setup FILE --dose LU [--sweep LOW:HIGH:COUNT]` */
export function usage({ name, places, options }: Command): string {
  const words = [
    ...places.map((place) => (place.needed ? place.name : `[${place.name}]`)),
    ...options.map((option) => (option.needed ? shownOption(option) : `[${shownOption(option)}]`)),
  ]
  return [name, ...words].join(' ')
}

function shownOption({ name, reads }: Option): string {
  return reads === null ? `--${name}` : `--${name} ${reads.shown}`
}

function neededWord({ needed }: Option | Place): string {
  return needed ? ' (needed)' : ''
}

/** `text` wrapped after `head`, its further lines under its first word. */
export function hung(head: string, text: string): string[] {
  const lines: string[] = []
  let line = head
  for (const word of text.split(' ')) {
    if (line.length > head.length && line.length + 1 + word.length > WIDTH) {
      lines.push(line)
      line = ' '.repeat(head.length)
    }
    line += line.length > head.length ? ` ${word}` : word
  }
  return [...lines, line]
}
