import type { Halftone } from '../../core/halftone/halftone.ts'
import type { PrintedTones } from '../../core/halftone/toneCurve.ts'
import { USUAL_HALFTONE } from './readPlan.ts'
import type { PlanFile } from './usualPlan.ts'

/** Tints of an ink as the shop measured them, on a fabric, in dots of a size. */
export type ShopTones = Readonly<{
  id: string
  ink: string
  fabric: string
  dots: 'ruled' | 'scattered'
  /** Of scattered dots how many lie side by side on a cm. */
  rulingPerCm: number
  tints: PrintedTones
  /** When they were told, by ISO 8601. */
  at: string
}>

/** In a plan's ink: as the shop measured its tints, where it did. */
export const BY_SHOP = 'shop'

/** Rulings this near to each other print alike. Judged. */
const SAME_RULING_SHARE = 0.1

/** The size of dots as tints are kept by it; null where there are none. */
export function dotsOf(halftone: Halftone | null): Pick<ShopTones, 'dots' | 'rulingPerCm'> | null {
  if (halftone === null) return null
  if (halftone.kind === 'dot') return { dots: 'ruled', rulingPerCm: halftone.rulingPerCm }
  const { dotUm } = halftone
  return dotUm === undefined ? null : { dots: 'scattered', rulingPerCm: 10_000 / dotUm }
}

/**
 * The tints that count for an ink: of its name, on this fabric, in dots at most a tenth finer or
 * coarser; null where nobody measured them.
 *
 * @param known newest first
 */
export function shopTonesFor(
  known: readonly ShopTones[],
  {
    ink,
    fabric,
    halftone,
  }: Readonly<{ ink: string; fabric: string | null; halftone: Halftone | null }>,
): ShopTones | null {
  const size = dotsOf(halftone)
  if (size === null || fabric === null) return null
  const fits = known.filter(
    (tones) =>
      tones.ink.trim().toLowerCase() === ink.trim().toLowerCase() &&
      tones.fabric === fabric &&
      tones.dots === size.dots &&
      Math.abs(tones.rulingPerCm / size.rulingPerCm - 1) <= SAME_RULING_SHARE,
  )
  const off = ({ rulingPerCm }: ShopTones): number => Math.abs(rulingPerCm - size.rulingPerCm)
  return fits.reduce<ShopTones | null>(
    (best, tones) => (best === null || off(tones) < off(best) ? tones : best),
    null,
  )
}

/** A plan file with the shop's tints written out, as films are made by it and other shops can read it. */
export function withShopTones(
  file: PlanFile,
  { known, fabric }: Readonly<{ known: readonly ShopTones[]; fabric: string | null }>,
): PlanFile {
  const list: readonly unknown[] = Array.isArray(file['inks']) ? file['inks'] : []
  const isAsked = (ink: unknown): ink is Readonly<{ name?: unknown; printed: string }> =>
    ink !== null && typeof ink === 'object' && 'printed' in ink && ink.printed === BY_SHOP
  if (!list.some(isAsked)) return file
  const halftone = halftoneOf(file)
  const inks = list.map((ink) => {
    if (!isAsked(ink)) return ink
    const { printed: _, ...rest } = ink
    const name = typeof rest.name === 'string' ? rest.name : ''
    const tones = shopTonesFor(known, { ink: name, fabric, halftone })
    return tones === null ? rest : { ...rest, printed: tones.tints }
  })
  return { ...file, inks }
}

/** The dots of a plan file, as far as they can be read. */
function halftoneOf({ halftone = USUAL_HALFTONE }: PlanFile): Halftone | null {
  if (halftone === null || typeof halftone !== 'object') return null
  const { kind, rulingPerCm, dotUm } = halftone as Readonly<Record<string, unknown>>
  if (kind === 'stochastic') {
    return typeof dotUm === 'number' ? { kind, seed: 1, dotUm } : null
  }
  const ruling = typeof rulingPerCm === 'number' ? rulingPerCm : USUAL_HALFTONE.rulingPerCm
  return { ...USUAL_HALFTONE, rulingPerCm: ruling }
}
