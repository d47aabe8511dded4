import { Failure } from '../../core/failure.ts'
import { didYouMean } from '../../workflow/nearest.ts'
import type { Place } from '../arguments.ts'
import type { Answer, Command } from '../command.ts'
import { glossaryText, readGlossary } from '../glossary.ts'
import { CALLED, commandText, listText, usage } from '../helpText.ts'
import { shortened, word } from '../reads.ts'

const GLOSSARY_WORD = 'glossary'

const TOPIC: Place<string> = {
  name: 'TOPIC',
  about: `a command's name, or ${GLOSSARY_WORD}`,
  needed: false,
  reads: word({ what: 'topic', shown: 'TOPIC' }),
}

/** The command that lists `commands`, which are those that work, and explains each. */
export function helpOn(commands: readonly Command[]): Command {
  const help: Command = {
    name: 'help',
    summary: 'what the commands are, and what each takes',
    places: [TOPIC],
    options: [],
    example: {
      line: 'help glossry',
      prints: "There is no command 'glossry'. Did you mean 'help glossary'?",
    },
    run: async (given) => {
      const topic = given.of(TOPIC)
      const all = [...commands, help]
      if (topic === undefined) return listHelp(all)
      if (topic === GLOSSARY_WORD) return glossaryHelp()
      return commandHelp(commandNamed(all, topic))
    },
  }
  return help
}

/** @throws Failure with the nearest name */
export function commandNamed(commands: readonly Command[], written: string): Command {
  const command = commands.find(({ name }) => name === written)
  if (command !== undefined) return command
  const names = [...commands.map(({ name }) => name), GLOSSARY_WORD]
  const guess = didYouMean(written, names).replace(
    ` ${GLOSSARY_WORD}?`,
    ` 'help ${GLOSSARY_WORD}'?`,
  )
  const advice = guess === '' ? " 'help' lists them." : guess
  throw new Failure('wrong input', `There is no command '${shortened(written)}'.${advice}`)
}

function listHelp(commands: readonly Command[]): Answer {
  return {
    record: { kind: 'help', commands: commands.map(shown) },
    text: listText(commands),
  }
}

export function commandHelp(command: Command): Answer {
  return { record: { kind: 'help', commands: [shown(command)] }, text: commandText(command) }
}

async function glossaryHelp(): Promise<Answer> {
  const entries = await readGlossary()
  return { record: { kind: 'glossary', entries }, text: glossaryText(entries) }
}

function shown(command: Command): Readonly<Record<string, unknown>> {
  const { name, summary, example } = command
  return {
    name,
    summary,
    usage: usage(command),
    example: `${CALLED} ${example.line}`,
    prints: example.prints,
  }
}
