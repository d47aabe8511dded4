import type { OpenShop } from '../../../src/store/openShop.ts'

/** One engine, for a suite that must hold on both. */
export type Bench = Readonly<{
  kind: OpenShop['engine']
  /** The shop of the suite; empty at the beginning of each test. */
  shop: () => OpenShop
  /** Where another shop may be made on this engine, in a folder that is not there yet. */
  another: (name: string) => Promise<Readonly<{ folder: string; databaseUrl?: string }>>
}>
