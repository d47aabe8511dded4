import type { SignName } from './signNames.ts'

/** Why a screen fails, what goes with it, and what to do. */
export type Cause = Readonly<{
  says: string
  /** How common it is among failures of a shared room, 0..1; all of them make about 1. Judged. */
  share: number
  /** How often each sign is there when this is the cause, 0..1. Judged. */
  signs: Readonly<Partial<Record<SignName, number>>>
  /** With this screen, now. */
  now: string
  /** With the next one. */
  next: string
}>

/** Causes of light, drying and age. */
export const HARDENING_NAMES = [
  'too little light',
  'weaker lamp',
  'not dry',
  'too much light',
  'weak film',
  'poor contact',
  'fogged before',
  'hardened by heat',
  'coated too long ago',
  'old bucket',
] as const

export type HardeningCause = (typeof HARDENING_NAMES)[number]

/** Causes of hands, dust, water and chemicals. */
export const HANDLING_NAMES = [
  'thin coat',
  'dirty fabric',
  'dust in the coat',
  'dust on the glass',
  'harsh washout',
  'rinsed too little',
  'film flipped',
  'uneven light',
  'ink attacks it',
  'stood too long',
  'remover dried in',
] as const

export type HandlingCause = (typeof HANDLING_NAMES)[number]

export type CauseName = HardeningCause | HandlingCause
