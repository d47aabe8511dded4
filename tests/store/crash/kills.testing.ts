import { THOROUGH } from '../../thorough.testing.ts'

/** How often a process is killed at each kind of work; no multiple of 7. */
export const KILLS: number = THOROUGH ? 20 : 1
