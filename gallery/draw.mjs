// npm run gallery: draws every picture of the gallery anew, in place.
import { fileURLToPath } from 'node:url'
import { PICTURES } from './pictures.mjs'

for (const [name, draw] of Object.entries(PICTURES)) {
  const path = fileURLToPath(new URL(`./pictures/${name}.png`, import.meta.url))
  await draw(path)
  process.stdout.write(`${name}\n`)
}
