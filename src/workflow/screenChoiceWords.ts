import type { ScreenRanked } from '../core/screenChoice/choose.ts'
import {
  type Deposit,
  type Detail,
  type Room,
  type Says,
  type Tone,
  USUAL_CLEARANCE_MM,
} from '../core/screenChoice/holds.ts'
import type { Stands } from '../core/screenChoice/stands.ts'
import { dayName } from './papers/dayWords.ts'

/** Why a screen suits a film or not, and how it stands: one sentence each. */
export type ScreenReason = Readonly<{
  about: 'detail' | 'tone' | 'deposit' | 'room' | 'standing'
  says: Says
  text: string
}>

/** What the sentences name besides. */
export type NamesSaid = Readonly<{
  /** The day of a moment, as 2026-11-28. */
  dayOf: (ms: number) => string
  /** Who it is kept for, and which layer has it. */
  keptFor: string | null
  takenBy: string | null
}>

/** The reasons of one screen, what stops it first. */
export function screenReasons(
  { holds, stands }: ScreenRanked,
  names: NamesSaid,
): readonly ScreenReason[] {
  const { detail, tone, deposit, room } = holds
  const all: readonly ScreenReason[] = [
    { about: 'standing', says: STANDING[stands.when], text: standingSays(stands, names) },
    { about: 'detail', says: detail.says, text: detailSays(detail) },
    ...(tone === null ? [] : [{ about: 'tone', says: tone.says, text: toneSays(tone) } as const]),
    ...(room === null ? [] : [{ about: 'room', says: room.says, text: roomSays(room) } as const]),
    { about: 'deposit', says: 'yes', text: depositSays(deposit) },
  ]
  const order: readonly Says[] = ['no', 'in doubt', 'yes']
  return all.toSorted((a, b) => order.indexOf(a.says) - order.indexOf(b.says))
}

const STANDING: Readonly<Record<Stands['when'], Says>> = {
  now: 'yes',
  later: 'in doubt',
  not: 'no',
}

function detailSays({ finestLineUm, heldShare }: Detail): string {
  const line = `${hundredths(finestLineUm / 1000)} mm`
  if (heldShare === null) {
    return `Its finest line is ${line}; how wide the film’s marks are is not known.`
  }
  if (heldShare === 1) return `All marks are as wide as its finest line, ${line}, or wider.`
  const tens = Math.floor(10 * heldShare)
  if (tens === 0) return `Hardly a mark is as wide as its finest line, ${line}.`
  return `${tens} in 10 of the marks are as wide as its finest line, ${line}.`
}

function toneSays({ says, rulingPerCm, usualPerCm, finestPerCm }: Tone): string {
  const asked = `${plain(rulingPerCm)} lines a cm`
  const limits = `${Math.floor(usualPerCm)} are usual, ${Math.floor(finestPerCm)} the finest`
  if (says === 'yes') return `It carries ${asked}: ${limits}.`
  return says === 'no'
    ? `${asked} are too fine for it: ${limits}.`
    : `${asked} are near its end: ${limits}.`
}

function roomSays({ says, clearanceMm }: Room): string {
  if (says === 'no') return `The film is ${Math.ceil(-2 * clearanceMm)} mm too large for its frame.`
  const left = `The film leaves ${Math.floor(clearanceMm)} mm to the frame`
  return says === 'yes' ? `${left}.` : `${left}; about ${USUAL_CLEARANCE_MM} are usual.`
}

function depositSays({ solidUm, lineUm }: Deposit): string {
  return `It lays ${Math.round(solidUm)} cm³ of ink on a square metre, up to ${Math.round(lineUm)} in fine lines.`
}

function standingSays(stands: Stands, { dayOf, keptFor, takenBy }: NamesSaid): string {
  const day = (ms: number): string => dayName(dayOf(ms))
  switch (stands.is) {
    case 'ready': {
      const until = stands.goodUntilMs === null ? '' : `, good until ${day(stands.goodUntilMs)}`
      return `Coated ${day(stands.coatedAtMs)} and dry${until}.`
    }
    case 'drying':
      return 'Its coat is still drying.'
    case 'bare':
      return 'It has to be coated first.'
    case 'to reclaim':
      return 'It has to be reclaimed and coated first.'
    case 'past its date':
      return 'Its coat is past its date: reclaim it and coat it anew.'
    case 'of an old bucket':
      return 'It was coated from a bucket past its date: reclaim it and coat it anew.'
    case 'taken':
      return `Layer ${takenBy ?? 'of another print'} has it.`
    case 'exposed':
      return 'It carries another stencil.'
    case 'in print':
      return 'It is in print.'
    case 'torn':
      return 'It is torn.'
    case 'lost':
      return 'Nobody finds it.'
    case 'kept':
      return stands.untilMs === null
        ? `It is kept for ${keptFor ?? 'somebody else'}.`
        : `It is kept for ${keptFor ?? 'somebody else'} until ${day(stands.untilMs)}.`
  }
}

function hundredths(value: number): string {
  return value.toFixed(2)
}

function plain(value: number): string {
  return String(Math.round(value * 10) / 10)
}
