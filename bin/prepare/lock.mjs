import { randomUUID } from 'node:crypto'
import {
  linkSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { hostname } from 'node:os'
import { dirname } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { Trouble } from './trouble.mjs'

const BEAT_MS = 2000
/** A holder on another machine, or one whose number was given away again, shows no beat for this long. */
const SILENT_MS = 30_000

/**
 * Runs `work` while no other process holds the lock at `path`; waits for it, saying so.
 *
 * The lock is a file that names its holder. The lock of a dead process is taken over: whoever makes
 * the one take-over file for that very lock replaces it, so two who find it dead cannot both go in.
 */
export async function underLock(path, { say }, work) {
  const own = JSON.stringify({ pid: process.pid, host: hostname(), name: randomUUID() })
  const draft = `${path}.${process.pid}`
  try {
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(draft, own)
  } catch (cause) {
    throw notWritable(dirname(path), cause)
  }
  try {
    await take(path, { draft, say })
  } finally {
    rmSync(draft, { force: true })
  }
  const beat = setInterval(() => touch(path), BEAT_MS)
  beat.unref()
  try {
    return await work()
  } finally {
    clearInterval(beat)
    if (read(path) === own) rmSync(path, { force: true })
  }
}

async function take(path, { draft, say }) {
  const began = Date.now()
  let said = false
  while (!linked(draft, path)) {
    const holder = read(path)
    if (holder !== null && isDead(path, holder) && tookOver(path, { holder, draft })) break
    if (!said) say('Another Yellowroom command is installing or building here. Waiting for it …')
    said = true
    await sleep(100)
  }
  if (said) say(`Waited ${((Date.now() - began) / 1000).toFixed(1)} s.`)
}

function tookOver(path, { holder, draft }) {
  const claim = `${path}.over.${holderOf(holder).name}`
  if (!linked(draft, claim)) return false
  const stillTheirs = read(path) === holder
  if (stillTheirs) renameSync(claim, path)
  else rmSync(claim, { force: true })
  return stillTheirs
}

/** A hard link appears at once with its whole content, or not at all. */
function linked(from, to) {
  try {
    linkSync(from, to)
    return true
  } catch (cause) {
    if (cause.code === 'EEXIST') return false
    throw notWritable(dirname(to), cause)
  }
}

function isDead(path, holder) {
  const { pid, host } = holderOf(holder)
  if (host === hostname() && !isRunning(pid)) return true
  try {
    return Date.now() - statSync(path).mtimeMs > SILENT_MS
  } catch {
    return false // it was given back just now
  }
}

function holderOf(text) {
  try {
    return JSON.parse(text)
  } catch {
    return { name: 'unknown' } // damaged: only its silence tells that nobody holds it
  }
}

function isRunning(pid) {
  try {
    process.kill(pid, 0)
    return true
  } catch (cause) {
    return cause.code === 'EPERM'
  }
}

function read(path) {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return null
  }
}

function touch(path) {
  try {
    utimesSync(path, new Date(), new Date())
  } catch {
    // the folder was wiped under us: nothing is left to keep
  }
}

export function notWritable(folder, cause) {
  const why = cause?.code ?? cause
  return new Trouble(
    `Yellowroom cannot write in ${folder} (${why}), where it builds on first use: ` +
      `run it once as the folder's owner, or copy the folder to a place you can write.`,
    3,
  )
}
