import { createContext, type ReactNode, useContext, useMemo } from 'react'
import { PATHS } from '../api/paths.ts'
import type { Shop } from '../api/shop.ts'
import type { Asked } from './asked.ts'
import { useSettings } from './settings.tsx'
import type { Units } from './signs/Ruler.tsx'
import { useAsked } from './useAsked.ts'

type KnownShop = Readonly<{ asked: Asked<Shop>; askAgain: () => void }>

const ShopContext = createContext<KnownShop | null>(null)
const QUESTION = { path: PATHS.shop }

/** Knows which shop the pages show. */
export function ShopRoom({ children }: Readonly<{ children: ReactNode }>): ReactNode {
  const [asked, askAgain] = useAsked<Shop>(QUESTION)
  const known = useMemo(() => ({ asked, askAgain }), [asked, askAgain])
  return <ShopContext value={known}>{children}</ShopContext>
}

/** @throws RangeError outside of a ShopRoom */
export function useShop(): KnownShop {
  const shop = useContext(ShopContext)
  if (shop === null) throw new RangeError('useShop: expected a ShopRoom around the page')
  return shop
}

/** The person's own units, else the shop's. */
export function useUnits(): Units {
  const { units } = useSettings()
  const { asked } = useShop()
  const shop = asked.answer
  return units ?? (shop === null || shop.state === 'none' ? 'metric' : shop.units)
}
