import { resolve } from 'node:path'
import type { AskShop } from '../server/reachShop.ts'
import type { Option } from './arguments.ts'
import type { Io } from './command.ts'
import { dataFolder } from './dataFolder.ts'
import { path } from './reads.ts'

export const SHOP: Option<string> = {
  name: 'shop',
  about: "the shop's data folder; YELLOWROOM_DATA or the usual place unless given",
  needed: false,
  reads: path({ what: 'shop', shown: 'DIR' }),
}

/** The folder that is meant by what was given for --shop. */
export function shopFolder(named: string | undefined, io: Io): string {
  return named === undefined ? dataFolder(io.env) : resolve(named)
}

/** The shop that is meant, through its running server or opened here; see `reachShop`. */
export async function withShop<Result>(
  named: string | undefined,
  io: Io,
  use: (ask: AskShop) => Promise<Result>,
): Promise<Result> {
  const { reachShop } = await import('../server/reachShop.ts')
  return reachShop(shopFolder(named, io), { databaseUrl: io.env['DATABASE_URL'], use })
}
