import type { ReactNode } from 'react'
import type { Artwork } from '../../api/artwork.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { dotsOf, type ShopTones, shopTonesFor } from '../../workflow/makeFilms/shopTones.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { dayOfYearText } from '../figures.ts'
import { SecondAct } from '../signs/Button.tsx'
import { Figure, Words } from './Figure.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { inksOf, type PlanInk } from './planFile.ts'
import {
  type PrintWay,
  printWayOf,
  withPrintForAll,
  withPrintWay,
  withShopTints,
  withTint,
} from './planInks.ts'
import { PRINTS_WORDS } from './printsWords.ts'
import type { PrintsKept } from './usePrints.ts'

const { own: says } = FILMS_WORDS
const { tints: words } = PRINTS_WORDS

/** What the shop knows of its prints, and how it learns more. */
export type ShopPrints = Readonly<{
  shop: Pick<Artwork, 'toneCurves' | 'fabric' | 'fabrics'>
  prints: PrintsKept
}>

type HowItPrintsProps = ShopPrints &
  Readonly<{
    plan: FilmPlan
    file: PlanFile
    at: number
    own: PlanInk
    onPlan: (file: PlanFile) => void
  }>

/** What tints of an ink's film print as: nobody says, as is usual, or as somebody measured them. */
export function HowItPrints(props: HowItPrintsProps): ReactNode {
  const { file, at, own, plan, onPlan } = props
  const way = printWayOf(own)
  return (
    <>
      <p>
        {says.prints}
        <Words
          label={says.printsLabel(own.name)}
          value={way}
          words={says.printWays}
          onChoice={(next) => onPlan(withPrintWay(file, at, next as PrintWay))}
        />
        {way === 'shop' ? (
          <OfShop {...props} />
        ) : way === 'measured' ? (
          <Measured {...props} />
        ) : (
          '.'
        )}
      </p>
      {way === 'measured' && <Keep {...props} />}
      {(way === 'usual' || way === 'measured') && plan.inks.length > 1 && (
        <p>
          <SecondAct onPress={() => onPlan(withPrintForAll(file, at))}>{says.printsAll}</SecondAct>
        </p>
      )}
    </>
  )
}

/** The shop's tints that an ink of the plan uses; null where it uses none or there are none. */
export function usedTones(
  own: PlanInk | undefined,
  { shop, plan }: Pick<HowItPrintsProps, 'shop' | 'plan'>,
): ShopTones | null {
  if (own === undefined || printWayOf(own) !== 'shop') return null
  const { fabric, toneCurves } = shop
  return shopTonesFor(toneCurves, { ink: own.name, fabric, halftone: plan.halftone })
}

function OfShop({ own, shop, plan, prints }: HowItPrintsProps): ReactNode {
  if (shop.fabric === null) return words.noFabric
  const tones = usedTones(own, { shop, plan })
  if (tones === null) return words.none
  const fabric = shop.fabrics.find(({ id }) => id === tones.fabric)?.name ?? ''
  const size =
    tones.dots === 'ruled'
      ? words.ruled(String(Number(tones.rulingPerCm.toFixed(1))))
      : words.scattered(String(Number((10 / tones.rulingPerCm).toFixed(3))))
  const pairs = tones.tints.map(([film, print]) => words.pair(percent(film), percent(print)))
  return (
    <>
      {words.from(dayOfYearText(new Date(tones.at)), fabric, size)}: {pairs.join(', ')}
      {words.end} <SecondAct onPress={() => prints.onStrike(tones.id)}>{words.strike}</SecondAct>
    </>
  )
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`
}

function Measured({ file, at, own, onPlan }: HowItPrintsProps): ReactNode {
  const tints = Array.isArray(own.printed) ? own.printed : []
  return (
    <>
      {tints.map(([film, print], tint) => (
        <span key={film}>
          {says.tint(Math.round(100 * film), tint === 0)}
          <Figure
            label={says.tintLabel(Math.round(100 * film))}
            value={100 * print}
            wrong={null}
            onFigure={(share) => onPlan(withTint(file, at, tint, share / 100))}
          />
        </span>
      ))}
      {says.tintEnd}
    </>
  )
}

/** What was measured for this artwork becomes the shop's own. */
function Keep({ file, at, own, plan, shop, prints, onPlan }: HowItPrintsProps): ReactNode {
  const size = dotsOf(plan.halftone)
  const { fabric } = shop
  const tints = Array.isArray(own.printed) ? own.printed : []
  if (fabric === null || size === null || tints.length === 0) return null
  const keep = async (): Promise<void> => {
    const pairs = tints.map(([film, print]): [number, number] => [film, print])
    const isKept = await prints.onTints({ ink: own.name, fabric, ...size, tints: pairs })
    if (isKept) onPlan(withShopTints(file, at))
  }
  return (
    <p>
      <SecondAct onPress={() => void keep()}>{words.keep}</SecondAct>{' '}
      <span className="soft">{words.kept}</span>
      {prints.message !== null && (
        <span className="upload-refused" role="alert">
          {prints.message}
        </span>
      )}
    </p>
  )
}

/** In the row of an ink: how its tints are taken to print; nothing where nobody says. */
export function tintsSay(
  { file, plan, shop }: Pick<HowItPrintsProps, 'file' | 'plan' | 'shop'>,
  at: number,
): string {
  const own = inksOf(file)[at]
  if (own === undefined || plan.halftone === null || plan.mode === 'line') return ''
  const way = printWayOf(own)
  if (way === 'usual') return words.usual
  if (way === 'measured') return words.own
  const tones = usedTones(own, { shop, plan })
  return tones === null ? '' : words.says(dayOfYearText(new Date(tones.at)))
}
