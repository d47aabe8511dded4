import { setTimeout } from 'node:timers/promises'
import type { Health } from '../api/shop.ts'
import { isFailure } from '../core/failure.ts'
import { DoorRefusal, OPENING } from './http/refusals.ts'
import type { ShopService } from './shop/shopService.ts'

/** The shop behind the door, which may not be open yet. */
export type ShopDoor = Readonly<{
  health: () => Health
  /** @throws DoorRefusal 'opening', or what kept the shop shut */
  shop: () => ShopService
  /** When the opening came to its end, one way or the other. */
  settled: Promise<void>
  /** As soon as it is, or a question has waited long enough. */
  soon: () => Promise<void>
  close: () => Promise<void>
}>

/** A shop that was open before is open within this: its first questions wait, and are not put off. */
const PATIENCE_MS = 2000

/** Opens the shop beside whatever else goes on; until it is open questions wait, then are put off. */
export function shopDoor(
  open: () => Promise<ShopService>,
  { patienceMs = PATIENCE_MS }: Readonly<{ patienceMs?: number }> = {},
): ShopDoor {
  let service: ShopService | null = null
  let failed: unknown = null
  const opening = open().then(
    (opened) => {
      service = opened
    },
    (cause: unknown) => {
      failed = cause
    },
  )
  return {
    health: () => {
      if (service !== null) return { kind: 'health', status: 'ready', message: null }
      if (failed === null) return { kind: 'health', status: 'opening', message: null }
      return { kind: 'health', status: 'failed', message: whyShut(failed) }
    },
    shop: () => {
      if (service !== null) return service
      if (failed === null) throw new DoorRefusal('opening', OPENING)
      throw new DoorRefusal('shut', whyShut(failed))
    },
    settled: opening,
    soon: async () => {
      if (service !== null || failed !== null) return
      await Promise.race([opening, setTimeout(patienceMs, undefined, { ref: false })])
    },
    close: async () => {
      await opening
      await service?.close()
    },
  }
}

export function whyShut(cause: unknown): string {
  if (isFailure(cause)) return cause.message
  const what = cause instanceof Error ? cause.message : String(cause)
  return `The shop could not be opened (${what}): start Yellowroom again; what was saved before is safe.`
}
