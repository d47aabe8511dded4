import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const BIN = fileURLToPath(new URL('node_modules/.bin/', import.meta.url))
const CODE = [
  'src',
  'tests',
  'bin',
  'tools/run.mjs',
  'vite.config.ts',
  'vitest.config.ts',
  'gallery',
  'bench',
  'fixtures',
]

const [task = '', ...paths] = process.argv.slice(2)
const places = paths.length > 0 ? paths : CODE.filter((path) => existsSync(`${ROOT}${path}`))

const oxlint = ['oxlint', '--config=tools/oxlint.json', '--type-aware', '--deny-warnings']
const biome = ['--config-path=tools/format.json', '--no-errors-on-unmatched']

/** What each task runs, one after another. */
const TASKS = {
  lint: [
    [...oxlint, ...places],
    ['biome', 'check', ...biome, ...places],
  ],
  fix: [
    [...oxlint, '--fix', ...places],
    ['biome', 'check', '--write', ...biome, ...places],
  ],
  format: [['biome', 'format', '--write', ...biome, ...places]],
  dead: [['knip', '--config=tools/knip.json']],
}

const commands = TASKS[task]
if (commands === undefined) {
  console.error(`There is no task '${task}': ${Object.keys(TASKS).join(', ')}.`)
  process.exit(2)
}
if (!existsSync(BIN)) {
  console.error('The tools are not installed: run npm --prefix tools ci, then this again.')
  process.exit(3)
}
for (const [name, ...args] of commands) {
  const { status } = spawnSync(`${BIN}${name}`, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, OXLINT_TSGOLINT_PATH: `${BIN}tsgolint` },
    shell: process.platform === 'win32',
  })
  if (status !== 0) process.exitCode = 1
}
