import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Trouble } from './trouble.mjs'

const MARK = 'node_modules/.yellowroom-installed'

/** What package-lock.json asks for, as a short text that changes with it. */
export function lockMark(root) {
  return createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
}

/**
 * Which packages of the lockfile stand in node_modules: 'all', 'start' (enough to build and run,
 * not to test) or 'none'. Our own mark answers at once; without it npm's own record is compared.
 */
export function installedSet(root) {
  const mark = json(join(root, MARK))
  if (mark?.lock === lockMark(root)) return mark.set
  const asked = json(join(root, 'package-lock.json'))?.packages ?? {}
  const there = json(join(root, 'node_modules/.package-lock.json'))?.packages
  if (there === undefined) return 'none'
  const missing = Object.entries(asked).filter(
    ([path, { version, integrity, optional }]) =>
      path !== '' &&
      !(optional === true && there[path] === undefined) && // for another system
      (there[path]?.version !== version || there[path]?.integrity !== integrity),
  )
  if (missing.length === 0) return 'all'
  return missing.every(([, { dev, devOptional }]) => dev ?? devOptional) ? 'start' : 'none'
}

/** Whether tests could run here before: then a newer lockfile is installed whole as well. */
export function hadTests(root) {
  const there = json(join(root, 'node_modules/.package-lock.json'))?.packages ?? {}
  return Object.values(there).some(({ dev }) => dev === true)
}

export function countPackages(root, set) {
  const asked = Object.entries(json(join(root, 'package-lock.json')).packages)
  return asked.filter(
    ([path, { dev, optional }]) => path !== '' && !optional && (set === 'all' || !dev),
  ).length
}

/** @returns a promise that ends with npm; @throws Trouble with the reason in one sentence */
export async function install(root, { set, say }) {
  const began = Date.now()
  const still = setInterval(() => {
    say(`  still installing, ${Math.round((Date.now() - began) / 1000)} s`)
  }, 10_000)
  try {
    const { code, output } = await npm(root, [
      'ci',
      '--loglevel=error',
      '--no-audit',
      '--no-fund',
      set === 'all' ? '--include=dev' : '--omit=dev',
    ])
    if (code !== 0) throw new Trouble(reason(output, code), 3)
    markInstalled(root, set)
  } finally {
    clearInterval(still)
  }
}

/** Leaves the mark that answers at once next time. */
export function markInstalled(root, set) {
  writeFileSync(join(root, MARK), JSON.stringify({ lock: lockMark(root), set }))
}

function npm(root, args) {
  const script = process.env.npm_execpath ?? ''
  const [command, first] = /npm-cli\.[cm]?js$/.test(script)
    ? [process.execPath, [script]]
    : ['npm', []]
  return new Promise((resolve, reject) => {
    const child = spawn(command, [...first, ...args], {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
      shell: command === 'npm' && process.platform === 'win32',
    })
    const parts = []
    child.stdout.on('data', (part) => parts.push(part))
    child.stderr.on('data', (part) => parts.push(part))
    child.on('error', ({ code }) => {
      reject(new Trouble(`npm could not be started (${code}). It comes with Node.js.`, 3))
    })
    child.on('close', (code) => resolve({ code, output: Buffer.concat(parts).toString() }))
  })
}

const OFFLINE = /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|ENOTCACHED/

function reason(output, code) {
  if (OFFLINE.test(output)) {
    return 'npm cannot reach the package registry: connect this computer to the network once, then run this again.'
  }
  if (/EACCES|EPERM|EROFS/.test(output)) {
    return "npm may not write here: run this once as the folder's owner, or copy the folder to a place you can write."
  }
  if (/ENOSPC/.test(output)) return 'The disk is full: make room, then run this again.'
  const lines = output.split('\n').filter((line) => /^npm (error|ERR!)/.test(line))
  const words = lines.map((line) => line.replace(/^npm (error|ERR!)\s*/, '')).filter(Boolean)
  return `npm ci stopped with code ${code}: ${words.slice(0, 3).join(' ') || 'it gave no reason.'}`
}

function json(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return undefined
  }
}
