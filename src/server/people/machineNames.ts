import type { Machine } from '../../core/register/machines.ts'

/** What one is shown, in a sentence. */
export const MACHINE_NAMES: Readonly<Record<Machine, string>> = {
  coating: 'how to coat',
  drying: 'the drying cabinet',
  light: 'the exposure unit',
  water: 'the washout booth',
  'pressure washing': 'the pressure washer',
  chemicals: 'the reclaiming chemicals',
  printing: 'the press',
  cutting: 'the cutter',
  alone: 'how to work here alone',
}
