import type { ShopRecords } from './shopRecords.ts'
import type { ShopScreen } from './shopThings.ts'

/** The screen that a question means when none is named: coated, with the usual fabric, the first. */
export function usualScreen({ screens, shop }: ShopRecords): ShopScreen | null {
  const ready = screens.filter((screen) => whyNot(screen) === null)
  return ready.find(({ fabric }) => fabric.id === shop.usualFabricId) ?? ready[0] ?? null
}

/** Why nothing can be exposed on this screen now; null when it can. */
export function whyNot({ record, light }: ShopScreen): string | null {
  switch (record.state) {
    case 'coated':
      return light.coating === null ? 'not coated: coat it first' : null
    case 'clean':
      return 'not coated: coat it first'
    case 'exposed':
      return 'exposed already'
    case 'in print':
      return 'in print'
    case 'to reclaim':
      return 'to be reclaimed'
    case 'torn':
      return 'torn'
    case 'lost':
      return 'nobody finds it'
  }
}
