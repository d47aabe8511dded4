#!/usr/bin/env node
import { Trouble } from './prepare/trouble.mjs'
import { prepare } from './prepare.mjs'

const args = process.argv.slice(2)

// Whoever reads us may stop reading (`… | head`): then there is nobody left to tell.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (cause) => {
    if (cause.code === 'EPIPE') process.exit()
    const message = `The answer cannot be written where it is sent (${cause.code}): make room, or send it elsewhere.`
    if (stream !== process.stderr) process.stderr.write(`${message}\n`)
    process.exit(3)
  })
}

try {
  await prepare()
  const { main } = await import('../dist/run/main.js')
  process.exitCode = await main(args, process)
} catch (trouble) {
  if (!(trouble instanceof Trouble)) throw trouble
  process.stderr.write(`${trouble.message}\n`)
  if (args.includes('--json')) {
    const kind = trouble.exit === 1 ? 'bug' : 'world failed'
    process.stdout.write(`${JSON.stringify({ error: { kind, message: trouble.message } })}\n`)
  }
  process.exitCode = trouble.exit
}
