import { homedir } from 'node:os'
import { join, resolve } from 'node:path'
import type { Io } from './command.ts'

/** The data folder that is meant: the one that was named, or the usual place on this system. */
export function dataFolder(
  env: Io['env'],
  {
    platform = process.platform,
    home = homedir(),
  }: Readonly<{ platform?: NodeJS.Platform; home?: string }> = {},
): string {
  const named = env['YELLOWROOM_DATA']
  if (named !== undefined && named.trim() !== '') return resolve(named)
  switch (platform) {
    case 'darwin':
      return join(home, 'Library', 'Application Support', 'Yellowroom')
    case 'win32':
      return join(env['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'), 'Yellowroom')
    default:
      return join(given(env['XDG_DATA_HOME']) ?? join(home, '.local', 'share'), 'yellowroom')
  }
}

function given(text: string | undefined): string | undefined {
  return text === undefined || text === '' ? undefined : text
}
