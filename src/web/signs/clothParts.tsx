import { memo, type ReactNode, useId } from 'react'
import { scaleNumbers } from '../../workflow/cloth/doseScale.ts'
import { svgPath } from '../../workflow/cloth/threads.ts'
import type { Weave } from '../../workflow/cloth/weave.ts'
import { doseText, scaleText } from '../figures.ts'

/** A wax ring on the cloth: the place where number N of the list begins to close. */
export type ClothRing = Readonly<{ number: number; doseLu: number }>

/** Where a dose stands, kept inside the picture. */
export function at({ scale }: Weave, doseLu: number): number {
  return Math.min(scale.widthPx, Math.max(0, Math.round(scale.xPx(doseLu) * 10) / 10))
}

/** Ground and threads; a moved dose does not draw them again. */
export const Threads = memo(function Threads({
  woven,
  heightPx,
}: Readonly<{ woven: Weave; heightPx: number }>): ReactNode {
  const id = useId()
  const { widthPx } = woven.scale
  const [ground, ink] = [`${id}ground`, `${id}ink`]
  return (
    <>
      <defs>
        <linearGradient id={ground}>
          {woven.ground.map(({ offsetShare, opacity }) => (
            <stop
              key={offsetShare}
              offset={offsetShare}
              className="cloth-mesh"
              stopOpacity={opacity}
            />
          ))}
        </linearGradient>
        <linearGradient id={ink} gradientUnits="userSpaceOnUse" x1={0} x2={widthPx}>
          <stop offset={0} className="cloth-ink" />
          {woven.onMesh.flatMap(({ fromShare, toShare }) => [
            <stop key={`${fromShare}a`} offset={fromShare} className="cloth-ink" />,
            <stop key={`${fromShare}b`} offset={fromShare} className="cloth-ink-on-mesh" />,
            <stop key={`${toShare}c`} offset={toShare} className="cloth-ink-on-mesh" />,
            <stop key={`${toShare}d`} offset={toShare} className="cloth-ink" />,
          ])}
        </linearGradient>
      </defs>
      <rect className="cloth-ground" width={widthPx} height={heightPx} fill={`url(#${ground})`} />
      <path className="cloth-thread" d={svgPath(woven.across)} stroke={`url(#${ink})`} />
      <path className="cloth-thread" d={svgPath(woven.along)} stroke={`url(#${ink})`} />
    </>
  )
})

export function Numbers({
  woven,
  heightPx,
  doseLu,
  first,
  bar,
  hiddenPx,
}: Readonly<{
  woven: Weave
  heightPx: number
  doseLu: number
  first: readonly number[]
  /** The dose in bold on the scale; null where a plate says it. */
  bar: string | null
  /** So far to both sides of the bar a plate covers the scale. */
  hiddenPx: number
}>): ReactNode {
  const yPx = heightPx + 24
  const numbers = scaleNumbers(woven.scale, {
    first: first.map((lu) => Number(doseText(lu))),
    keepFreeLu: bar === null ? null : doseLu, // under a plate that moves the others stay where they are
    apartPx: 12 + 11 * doseText(woven.scale.highLu).length,
  }).filter(({ middlePx }) => Math.abs(middlePx - at(woven, doseLu)) > hiddenPx)
  return (
    <g className="cloth-numbers">
      {numbers.map((number) => (
        <text key={number.doseLu} x={number.middlePx} y={yPx} textAnchor="middle">
          {scaleText(number.doseLu)}
        </text>
      ))}
      {bar !== null && (
        <text
          className="cloth-dose"
          x={Math.min(woven.scale.widthPx - 12, Math.max(12, at(woven, doseLu)))}
          y={yPx}
          textAnchor="middle"
        >
          {bar}
        </text>
      )}
    </g>
  )
}

/** Half the width of the plate that says the dose. */
export function plateHalfPx(text: string): number {
  return 14 + 5.2 * text.length
}

export function Plate({
  xPx,
  yPx,
  widthPx,
  text,
}: Readonly<{ xPx: number; yPx: number; widthPx: number; text: string }>): ReactNode {
  const half = plateHalfPx(text)
  const middle = Math.min(widthPx - half, Math.max(half, xPx))
  return (
    <g className="cloth-plate">
      <path d={`M${xPx} ${yPx + 4}l9 10h-18z`} />
      <rect x={middle - half} y={yPx + 13} width={2 * half} height={30} />
      <text x={middle} y={yPx + 35} textAnchor="middle">
        {text}
      </text>
    </g>
  )
}

export function Rings({
  rings,
  woven,
  heightPx,
}: Readonly<{ rings: readonly ClothRing[]; woven: Weave; heightPx: number }>): ReactNode {
  return rings.map(({ number, doseLu }, row) => (
    <g
      key={number}
      className="cloth-ring"
      transform={`translate(${at(woven, doseLu)} ${heightPx - 6 - 8 * (row % 2)})`}
    >
      <circle r={8.5} />
      <text y={4} textAnchor="middle">
        {number}
      </text>
    </g>
  ))
}
