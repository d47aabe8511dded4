import type { Command } from './command.ts'
import { commandNamed, helpOn } from './commands/help.ts'

/** Where each command that works is, in the order in which help lists them. */
const PLACES: Readonly<Record<string, () => Promise<Command>>> = {
  forecast: async () => (await import('./commands/forecast.ts')).forecast,
  dose: async () => (await import('./commands/dose.ts')).dose,
  films: async () => (await import('./commands/films.ts')).films,
  inks: async () => (await import('./commands/inks.ts')).inks,
  fabric: async () => (await import('./commands/fabric.ts')).fabric,
  moire: async () => (await import('./commands/moire.ts')).moire,
  wedge: async () => (await import('./commands/wedge.ts')).wedge,
  strip: async () => (await import('./commands/strip.ts')).strip,
  calibrate: async () => (await import('./commands/calibrate.ts')).calibrate,
  mat: async () => (await import('./commands/mat.ts')).mat,
  read: async () => (await import('./commands/read.ts')).read,
  inspect: async () => (await import('./commands/inspect.ts')).inspect,
  place: async () => (await import('./commands/place.ts')).place,
  session: async () => (await import('./commands/session.ts')).session,
  start: async () => (await import('./commands/start.ts')).start,
  backup: async () => (await import('./commands/backup.ts')).backup,
  restore: async () => (await import('./commands/restore.ts')).restore,
  export: async () => (await import('./commands/export.ts')).exportShop,
  import: async () => (await import('./commands/import.ts')).importNotes,
  check: async () => (await import('./commands/check.ts')).check,
  password: async () => (await import('./commands/password.ts')).password,
}

/** Every command that works, in the order in which help lists them. */
export async function everyCommand(): Promise<readonly Command[]> {
  const working = await Promise.all(Object.values(PLACES).map((load) => load()))
  return [...working, helpOn(working)]
}

/**
 * Loads no command but the one that is asked for.
 *
 * @throws Failure with the nearest name
 */
export async function findCommand(written: string): Promise<Command> {
  const load = Object.hasOwn(PLACES, written) ? PLACES[written] : undefined
  return load === undefined ? commandNamed(await everyCommand(), written) : load()
}
