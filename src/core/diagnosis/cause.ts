import type { SignName } from './signs.ts'

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
