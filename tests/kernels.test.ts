import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { compiledKernel, kernelFile, kernelNames } from '../tools/kernels.mjs'

const COMPILER = new URL('../tools/node_modules/assemblyscript/package.json', import.meta.url)
const WITHOUT = existsSync(COMPILER) ? '' : ' (tools are not installed: npm --prefix tools ci)'

test.skipIf(WITHOUT !== '')(
  `the kernels that are committed are what their sources compile to${WITHOUT}`,
  async () => {
    const names = kernelNames()
    expect(names.length).toBeGreaterThan(0)
    for (const name of names) {
      expect(await readFile(kernelFile(name), 'utf8')).toBe(await compiledKernel(name))
    }
  },
)
